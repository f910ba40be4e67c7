"""A job: the slab, the choices made for it, and what the sheets should say about it."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from kerfline.geometry.ring import Ring
from kerfline.model.day import MaterialChoice, SteelChoice
from kerfline.model.site import Site
from kerfline.model.slab import Slab
from kerfline.model.tracing import Tracing
from kerfline.units import Display, Unit


@dataclass(frozen=True, kw_only=True)
class Mix:
    """What the rule on spacing asks about the concrete; None where it is not known."""

    slump: float | None = None
    aggregate: float | None = None


@dataclass(frozen=True, kw_only=True)
class RuleChoice:
    """Which rule set, and what the user changed in it.

    Attributes:
        name: Name of a rule set in the package.
        overrides: The tables of the user's own TOML, same keys as a rule set's.
        to_maximum: Work to the greatest span instead of the advised one.
    """

    name: str = "floor"
    overrides: Mapping[str, object] = field(default_factory=dict)
    to_maximum: bool = False


@dataclass(frozen=True, kw_only=True)
class CutChoice:
    """How joints are cut: ``conventional`` or ``early-entry``, or a depth of the user's own."""

    method: str = "conventional"
    depth: float | None = None


@dataclass(frozen=True, kw_only=True)
class CutAreaChoice:
    """A part of the slab that has a cut sheet of its own, such as one room or one night's work.

    Attributes:
        name: Its name in the sheet's title.
        outline: What it covers; what lies off the concrete does not count.
    """

    name: str
    outline: Ring


@dataclass(frozen=True, kw_only=True)
class SheetChoice:
    """What the sheets say: every field blank until the user fills it.

    Attributes:
        fields: Title-block fields by name (``project``, ``number``, ``owner``, ``firm``, ``type`` of document, ``drawn``, ``checked``,
            ``approved``, ``date``, ``revision``).
        size: Sheet size by name; empty leaves it to the program.
        scale: Scale denominator (96 for 1/8" = 1'-0"); 0 leaves it to the program.
        north: Direction of north, degrees anticlockwise from the drawing's up.
        areas: Parts of the slab that have a cut sheet of their own.
        review: Whether the joint plan carries the findings, for the designer; an issued one does not.
        mark: The run mark, a short digest of job and layout that all sheets and tables of a run carry; set by
            the program, empty before there is a layout.
    """

    fields: Mapping[str, str] = field(default_factory=dict)
    size: str = ""
    scale: float = 0.0
    north: float = 0.0
    areas: tuple[CutAreaChoice, ...] = ()
    review: bool = False
    mark: str = ""

    @property
    def run(self) -> str:
        """The run mark as tables carry it, with the date where the user gives one."""
        return " ".join(filter(None, [self.mark, self.fields.get("date", "")]))


@dataclass(frozen=True, kw_only=True)
class Job:
    """Everything the user told us.

    Attributes:
        name: Name of the job; also of its files, reduced to letters, digits and dashes.
        units: Unit of bare numbers and the way lengths are shown.
        slab: What is given.
        rules: Which limits hold.
        mix: What is known of the concrete for the spacing rule.
        cut: How joints are cut.
        sheet: What the sheets say.
        effort: Seconds of a plain machine, counted in steps, that the engine may spend on proof.
        weights: The engine's soft weights that the user changed, by name.
        day: The ``[day]`` tables of the job file as they stand, checked by ``files``; for ``placement``.
        steel: What the ``[day]`` tables say of bars, dowels and fillers; told by the program before sheets are drawn.
        order: What they say of base, retarder and mesh, told likewise.
        site: How the plan lies on the ground; None where the job ties it to none.
        tracing: The picture that lies under the drawing on the page; None where there is none.
        notes: Assumptions made while reading, for the user to confirm.
        reading: What was taken from a drawing: its unit, which layer for what and why, what was left out.
    """

    name: str
    units: Unit
    slab: Slab
    rules: RuleChoice = RuleChoice()
    mix: Mix = Mix()
    cut: CutChoice = CutChoice()
    sheet: SheetChoice = SheetChoice()
    effort: float = 5.0
    weights: Mapping[str, float] = field(default_factory=dict)
    day: Mapping[str, object] = field(default_factory=dict)
    steel: SteelChoice = field(default_factory=SteelChoice)
    order: MaterialChoice = field(default_factory=MaterialChoice)
    site: Site | None = None
    tracing: Tracing | None = None
    notes: tuple[str, ...] = ()
    reading: tuple[str, ...] = ()

    def for_review(self) -> "Job":
        """The same job, its joint plan with the findings on it."""
        return replace(self, sheet=replace(self.sheet, review=True))

    @property
    def level(self) -> float | None:
        """Height of the top of slab in mm, as the slab or the site tells it; None where neither does."""
        return self.slab.level if self.slab.level is not None or not self.site else self.site.level

    @property
    def display(self) -> Display:
        """How lengths are written."""
        return self.units.display
