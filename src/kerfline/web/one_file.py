"""The page as one file, for the crew's tablet: no server, no network, nothing from elsewhere.

The same drawing scripts as on the live page are put into the file, in the order in which they need
each other; the picture lies beside them as data. A policy with the digests of exactly these scripts
keeps anything else from running.
"""

import base64
import hashlib
import html
import json
import re
from importlib.resources import files
from typing import TYPE_CHECKING

from kerfline.app.crew_cuts import CutSection, cut_sections
from kerfline.app.outcome import Outcome
from kerfline.app.run_mark import run_mark
from kerfline.web.picture import picture
from kerfline.web.slab_picture import Data, point_of, points_of

if TYPE_CHECKING:
    from kerfline.sheets.day.day_plan import DayPlan

ENTRY = "crew.js"
STYLES = ("drawing.css", "page.css", "crew.css")

IMPORT = re.compile(r'^import (\{[^}]*\}|\* as \w+) from "\./([a-z_]+)\.js";\n', re.MULTILINE)
EXPORT = re.compile(r"^export ((?:async )?(?:function|class|const) (\w+))", re.MULTILINE)

COLUMNS = ("number", "joint", "at", "start", "end", "length", "depth", "slab", "window", "ends")
"""What the columns of the cut sheet's table are called in the data; what is written in by hand is left out."""

DIGEST_LENGTH = 16
"""Characters of the digest that tells the ticks of one layout from those of another."""

PAGE = """<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="{policy}">
<meta name="referrer" content="no-referrer">
<title>{title}</title>
<style>{style}</style>
</head>
<body class="crew">
{body}
<script type="application/json" id="data">{data}</script>
<script type="module">{script}</script>
</body>
</html>
"""


def page_bytes(outcome: Outcome, plan: "DayPlan | None" = None) -> bytes:
    """The whole page of a layout, UTF-8.

    Args:
        outcome: The layout and its findings.
        plan: Its placement day, which gives the order and the windows; None where it is not known.
    """
    script, style = bundle(ENTRY), "".join(_static(name) for name in STYLES)
    page = PAGE.format(
        policy=html.escape(policy(script, style)),
        title=html.escape(f"{outcome.job.name}: cuts"),
        style=style,
        body=_static("crew.html"),
        data=embedded(_data(outcome, plan)),
        script=script,
    )
    return page.encode()


def _data(outcome: Outcome, plan: "DayPlan | None") -> Data:
    # The crew cuts from the layout, not from what it was traced from.
    data = picture(outcome) | {"tracing": None}
    data["sections"] = [_section(each) for each in cut_sections(outcome, plan)]
    data["mark"] = run_mark(outcome.job, outcome.layout)
    paths = json.dumps([data["joints"], data["sections"]], sort_keys=True).encode()
    data["key"] = hashlib.sha256(paths).hexdigest()[:DIGEST_LENGTH]
    return data


def _section(section: CutSection) -> Data:
    """One cut sheet's cuts, in the very words of its table."""
    return {
        "name": section.name,
        "start": section.start,
        "origin": point_of(section.base.origin),
        "turn": round(section.base.turn, 6),
        "cuts": [
            {
                **dict(zip(COLUMNS, row, strict=False)),
                "path": points_of(cut.line),
                "mm": round(cut.length, 1),
                "way": cut.way.name.lower(),
                "closes": None if closes is None else round(closes, 4),
            }
            for cut, row, closes in zip(section.cuts, section.rows, section.closes, strict=True)
        ],
    }


def embedded(data: Data) -> str:
    """Data as JSON that no reader of markup can take for the end of the script that holds it."""
    text = json.dumps(data, separators=(",", ":"), allow_nan=False)
    for character in "<>&":
        text = text.replace(character, f"\\u{ord(character):04x}")
    return text


def policy(script: str, style: str) -> str:
    """A content policy that lets exactly these texts run and nothing be fetched."""
    return "; ".join(
        [
            "default-src 'none'",
            f"script-src {_digest(script)}",
            f"style-src {_digest(style)}",
            "base-uri 'none'",
            "form-action 'none'",
        ]
    )


def _digest(text: str) -> str:
    return f"'sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()}'"


def bundle(entry: str) -> str:
    """A script and all that it imports as one text, each after what it needs.

    Each becomes a function that is called once and gives what the script exports, so that two scripts
    may use one name for different things.
    """
    ordered: list[str] = []
    _visit(entry.removesuffix(".js"), ordered)
    return "".join(map(_wrapped, ordered))


def _visit(name: str, ordered: list[str]) -> None:
    for _, needed in IMPORT.findall(_static(f"{name}.js")):
        if needed not in ordered:
            _visit(needed, ordered)
    ordered.append(name)


def _wrapped(name: str) -> str:
    text = _static(f"{name}.js")
    given = ", ".join(export for _, export in EXPORT.findall(text))
    body = EXPORT.sub(r"\1", IMPORT.sub(_taken, text))
    return f"const ${name} = (() => {{\n{body}return {{ {given} }};\n}})();\n"


def _taken(found: re.Match[str]) -> str:
    """An import as an assignment."""
    what, module = found.groups()
    if what.startswith("*"):
        return f"const {what.removeprefix('* as ')} = ${module};\n"
    return f"const {what.replace(' as ', ': ')} = ${module};\n"


def _static(name: str) -> str:
    return (files("kerfline.web") / "static" / name).read_text(encoding="utf-8")
