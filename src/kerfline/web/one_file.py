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

from kerfline.app.outcome import Outcome
from kerfline.model.slab import JointKind
from kerfline.web.picture import picture
from kerfline.web.slab_picture import Data

ENTRY = "reader.js"
STYLES = ("drawing.css", "page.css", "reader.css")

IMPORT = re.compile(r'^import (\{[^}]*\}|\* as \w+) from "\./([a-z]+)\.js";\n', re.MULTILINE)
EXPORT = re.compile(r"^export ((?:async )?(?:function|class|const) (\w+))", re.MULTILINE)

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
<body class="reader">
{body}
<script type="application/json" id="data">{data}</script>
<script type="module">{script}</script>
</body>
</html>
"""


def page_bytes(outcome: Outcome) -> bytes:
    """The whole page of a layout, UTF-8.

    Args:
        outcome: The layout and its findings.
    """
    script, style = bundle(ENTRY), "".join(_static(name) for name in STYLES)
    page = PAGE.format(
        policy=html.escape(policy(script, style)),
        title=html.escape(f"{outcome.job.name}: joints"),
        style=style,
        body=_static("reader.html"),
        data=embedded(_data(outcome)),
        script=script,
    )
    return page.encode()


def _data(outcome: Outcome) -> Data:
    data = picture(outcome)
    sawn = {j.id for j in outcome.layout.joints if j.kind is JointKind.CONTROL and j.depth}
    data["cuts"] = [j.id for j in outcome.layout.joints if j.id in sawn]
    paths = json.dumps([j["path"] for j in data["joints"]]).encode()
    data["key"] = hashlib.sha256(paths).hexdigest()[:DIGEST_LENGTH]
    return data


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
