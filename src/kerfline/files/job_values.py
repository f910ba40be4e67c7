"""The kinds of value in a job file, read strictly: lengths, points, words.

Each reader raises a pydantic error that carries our own sentence, so that pydantic goes on and every
mistake in the file is gathered.
"""

import contextlib
import math
import re
from datetime import date
from typing import Annotated, TypeVar

from pydantic import BeforeValidator, ValidationInfo
from pydantic_core import PydanticCustomError

from kerfline.errors import InputRefused
from kerfline.geometry.ring import GREATEST_BULGE, LEAST_BULGE, Point
from kerfline.geometry.tolerance import FARTHEST
from kerfline.units import EXAMPLES, Unit, parse_length

OURS = "kerfline"
"""Type of the errors whose message is already in our words."""

T = TypeVar("T")

OWN_NAME = re.compile(r"(SLAB|OPEN|COL-|J|CNTJ)[0-9-]")
"""How the names of the points begin that the program sets out itself."""

_PLAIN_NAME = re.compile(r"[^/\\:*?\"<>|\x00-\x1f]{1,200}")
_SITE_NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9 ._-]{0,15}")

PLAIN_POINT = 2
BULGED_POINT = 3
Vertex = tuple[float, float, float]
"""x, y and the bulge of the segment that leaves."""


ONCE_ROUND = 360.0
"""An angle turns no farther than this either way, degrees."""

STEEPEST = 20
"""Steepest fall of a floor or a ramp that is taken, in percent; more is a slip of the pen."""


def wrong(what: str, *, allowed: str = "", remedy: str = "") -> PydanticCustomError:
    """A pydantic error with the parts of a mistake."""
    return PydanticCustomError(OURS, "{what}", {"what": what, "allowed": allowed, "remedy": remedy})


def _unit(info: ValidationInfo) -> Unit | None:
    context: dict[str, Unit | None] = info.context or {}
    return context.get("unit")


def _length(value: object, info: ValidationInfo) -> float:
    if isinstance(value, bool) or not isinstance(value, str | int | float):
        raise wrong("a length is needed here", remedy=f"write it as {EXAMPLES}")
    try:
        length = parse_length(value, _unit(info))
    except InputRefused as refused:
        mistake = refused.mistakes[0]
        raise wrong(mistake.what, allowed=mistake.allowed, remedy=mistake.remedy) from None
    if abs(length) > FARTHEST:
        raise wrong("this length is longer than any site", remedy="check its unit")
    return length


def _positive(value: object, info: ValidationInfo) -> float:
    length = _length(value, info)
    if length <= 0:
        raise wrong("this length must be above zero")
    return length


def _not_negative(value: object, info: ValidationInfo) -> float:
    length = _length(value, info)
    if length < 0:
        raise wrong("this length must not be below zero")
    return length


def _point(value: object, info: ValidationInfo) -> Point:
    if not isinstance(value, list) or len(value) != PLAIN_POINT:
        raise wrong("a point is needed here", allowed="[x, y]")
    return (_length(value[0], info), _length(value[1], info))


def _vertex(value: object, info: ValidationInfo) -> Vertex:
    if not isinstance(value, list) or len(value) not in (PLAIN_POINT, BULGED_POINT):
        raise wrong(
            "a point is needed here",
            allowed="[x, y], or [x, y, bulge] where an arc leads to the next point",
        )
    bulge = _bulge(value[2]) if len(value) == BULGED_POINT else 0.0
    return (_length(value[0], info), _length(value[1], info), bulge)


def _bulge(value: object) -> float:
    """A bulge; 0 where the arc could not be told from a straight line."""
    bulge = _number(value)
    if abs(bulge) > GREATEST_BULGE:
        raise wrong("no arc has this bulge", allowed="-1 to 1 up to a half circle, rarely more")
    return 0.0 if abs(bulge) < LEAST_BULGE else bulge


def _number(value: object) -> float:
    if isinstance(value, int | float) and not isinstance(value, bool) and abs(value) < math.inf:
        with contextlib.suppress(OverflowError):  # a whole number beyond every float
            return float(value)
    raise wrong("a finite number is needed here")


def _picture_point(value: object) -> Point:
    if not isinstance(value, list) or len(value) != PLAIN_POINT:
        raise wrong(
            "a point of a picture is needed here", allowed="[x, y], from its upper left corner"
        )
    x, y = _number(value[0]), _number(value[1])
    if max(abs(x), abs(y)) > FARTHEST:
        raise wrong("no picture reaches so far")
    return (x, y)


def _picture_name(value: object) -> str:
    """The name of a file beside the job; no path, so that a job opens nothing elsewhere."""
    name = value if isinstance(value, str) else ""
    if not is_plain_name(name):
        raise wrong("a file's name is needed here", remedy="put the picture beside the job file")
    return name


def is_plain_name(name: str) -> bool:
    """Whether a name is that of a file in the same folder, seen and without a path."""
    return bool(_PLAIN_NAME.fullmatch(name)) and not name.startswith(".")


def _share(value: object) -> float:
    number = _number(value)
    if not 0 <= number <= 1:
        raise wrong("a share is needed here", allowed="0 to 1")
    return number


def _percent(value: object) -> float:
    number = _number(value)
    if not 0 < number <= STEEPEST:
        raise wrong("this is no slope of a floor in percent", allowed=f"above 0, up to {STEEPEST}")
    return number


def _angle(value: object) -> float:
    number = _number(value)
    if abs(number) > ONCE_ROUND:
        raise wrong("this is no angle in degrees", allowed=f"{-ONCE_ROUND:g} to {ONCE_ROUND:g}")
    return number


def _at_least_zero(value: object) -> float:
    number = _number(value)
    if number < 0:
        raise wrong("this number must not be below zero")
    return number


def _above_zero(value: object) -> float:
    number = _number(value)
    if number <= 0:
        raise wrong("this number must be above zero")
    return number


def _scale(value: object) -> float:
    """A scale as its denominator: 96, or ``1:96``."""
    if isinstance(value, str):
        head, _, tail = value.partition(":")
        if head.strip() == "1" and tail.strip().isdigit() and int(tail):
            return float(tail)
        raise wrong("this is not a scale", allowed='a number such as 96, or text such as "1:96"')
    return _above_zero(value)


def _text(value: object) -> str:
    """Text, or a date or number that stands for itself."""
    if isinstance(value, bool) or not isinstance(value, str | int | date):
        raise wrong("text is needed here")
    return str(value)


def _site_name(value: object) -> str:
    """A point's name that every field controller takes, and that no point of ours has."""
    name = value.strip() if isinstance(value, str) else ""
    if not _SITE_NAME.fullmatch(name):
        raise wrong(
            "a control point's name is needed here",
            allowed="1 to 16 letters, digits, dashes, points or spaces",
        )
    if OWN_NAME.match(name):
        raise wrong(
            "a point of the layout may have this name",
            remedy="put other letters before the number, such as CP or TBM",
        )
    return name


def _points(value: object) -> object:
    """A lone point stands for a list of one."""
    lone = isinstance(value, list) and value and not any(isinstance(v, list) for v in value)
    return [value] if lone else value


def _one_or_more(value: object) -> object:
    """A lone word stands for a list of one."""
    return [value] if isinstance(value, str) else value


Length = Annotated[float, BeforeValidator(_length)]
PositiveLength = Annotated[float, BeforeValidator(_positive)]
LengthFromZero = Annotated[float, BeforeValidator(_not_negative)]
PlanPoint = Annotated[Point, BeforeValidator(_point)]
RingPoint = Annotated[Vertex, BeforeValidator(_vertex)]
Number = Annotated[float, BeforeValidator(_number)]
Angle = Annotated[float, BeforeValidator(_angle)]
NumberFromZero = Annotated[float, BeforeValidator(_at_least_zero)]
PositiveNumber = Annotated[float, BeforeValidator(_above_zero)]
Percent = Annotated[float, BeforeValidator(_percent)]
Share = Annotated[float, BeforeValidator(_share)]
PicturePoint = Annotated[Point, BeforeValidator(_picture_point)]
PictureName = Annotated[str, BeforeValidator(_picture_name)]
Scale = Annotated[float, BeforeValidator(_scale)]
SiteName = Annotated[str, BeforeValidator(_site_name)]
Text = Annotated[str, BeforeValidator(_text)]
PointOrPath = Annotated[list[PlanPoint], BeforeValidator(_points)]
Words = Annotated[list[str], BeforeValidator(_one_or_more)]
