"""A placement of 30 x 10 m at 100 mm and its lines, for tests of windows and cutting."""

import shapely
from shapely import LineString

from kerfline.model.day import SettingRule
from kerfline.model.joint_lines import SawnLine
from kerfline.placement.climate import Ageing, Climate
from kerfline.placement.clock import placing_clock
from kerfline.placement.pour_order import Pour
from kerfline.placement.setting import Setting
from kerfline.placement.window import WindowHours

SETTING = Setting(initial_set=4, finishing=3, reference=21.0, rule=SettingRule.HALVING)
AREA = shapely.box(0, 0, 30000, 10000)
HOURS = WindowHours(opens=6.0, closes=12.0)


def pour(rate=20e9, start=7.0, name="1", area=AREA, screed=float("inf")):
    """A placement of 30 x 10 m at 100 mm."""
    clock = placing_clock(area, 0.0, start, rate, screed, lambda r: float(r.area) * 100)
    end = clock.lanes[-1].times[-1]
    return Pour(
        id=name, panels=("P1",), area=area, volume=3e10, reach=0.0, corners=(), day=1, start=start,
        end=end, clock=clock,
    )  # fmt: skip


def sawn(name, *points):
    return SawnLine(joint=name, line=LineString(points), depth=25.0, hidden=False)


def ageing(placed, temperature=21.0):
    climate = Climate(hours=(), concrete=temperature, known=True)
    return Ageing.of(climate, SETTING, placed.start, placed.end)


def across(x, name="J1"):
    return sawn(name, (x, 0), (x, 10000))


ALONG = sawn("J1", (0, 5000), (30000, 5000))
