"""What the day sheet shows: quantities and placement side by side."""

from dataclasses import dataclass

from kerfline.model.day import Assumption, DayInput
from kerfline.model.layout import Joint
from kerfline.placement.plan import PlacementPlan
from kerfline.quantities.concrete import ConcreteBody
from kerfline.quantities.order import Delivery
from kerfline.quantities.take_off import TakeOff


@dataclass(frozen=True, kw_only=True)
class DayOrder:
    """What placements take that follow one another on one day.

    Attributes:
        day: From 1.
        pours: Ids of the placements.
        delivery: What to order for them.
    """

    day: int
    pours: tuple[str, ...]
    delivery: Delivery


@dataclass(frozen=True, kw_only=True)
class DayChoice:
    """Another division of the same joints.

    Attributes:
        placements: How many there are; each is a day's work where days hold one.
        most: Concrete of the largest, mm3.
        bulkhead: Construction joint between them, mm.
    """

    placements: int
    most: float
    bulkhead: float


@dataclass(frozen=True, kw_only=True)
class DayPlan:
    """The placement day, worked out.

    Attributes:
        job: Name of the job; empty where it has none.
        day: What was known of the day.
        thickness: Of the slab outside its zones, mm.
        body: The concrete.
        order: The whole order.
        orders: The order of each day.
        placement: Pours, weather, windows and cutting.
        take_off: What to have on site.
        choices: Other divisions, fewer days against fewer bulkheads; empty where no day is limited.
        assumptions: What was not given and stands in the result all the same.
        questions: What should be asked before the day.
    """

    job: str
    day: DayInput
    thickness: float
    body: ConcreteBody
    order: Delivery
    orders: tuple[DayOrder, ...]
    placement: PlacementPlan
    take_off: TakeOff
    choices: tuple[DayChoice, ...]
    assumptions: tuple[Assumption, ...]
    questions: tuple[str, ...]

    @property
    def construction_joints(self) -> tuple[Joint, ...]:
        """The layout's construction joints."""
        return self.placement.pours.joints
