"""Writes a changed job back into its file; comments, order and spelling of what did not change stay.

The two states of the job are written out as fresh job files and compared; what differs is carried
over into the user's own text. So there is one way to write a value (``job_text``), and whatever did
not change is not touched.
"""

from collections.abc import Mapping, Sequence
from typing import Any

import tomlkit
from tomlkit import TOMLDocument
from tomlkit.container import Container
from tomlkit.items import AbstractTable, AoT, Table, Trivia

from kerfline.files.job_text import job_text
from kerfline.model.job import Job

Tables = Mapping[str, Any]

KINDS = ("wall", "column", "penetration", "zone", "keep_out", "joint")
"""Tables with an id, of which the page may change, add or drop any."""

EVERYTHING = (
    "edge", "wall", "column", "penetration", "zone", "keep_out", "joint", "pattern", "fall",
)  # fmt: skip
"""Every table that describes the slab."""


def revise(text: str, before: Job, after: Job) -> str:
    """The job file with what changed.

    Args:
        text: The file as it stands.
        before: The job that it describes.
        after: The job that it shall describe; differs in its name, the slab and what is on it, the rule
            set and the picture under it only.
    """
    document = tomlkit.parse(text)
    old, new = _fresh(before), _fresh(after)
    for name in ("job", "slab", "rules"):
        _revise_table(document, name, old[name], new[name])
    _revise_table(document, "tracing", old.get("tracing", {}), new.get("tracing", {}))
    if "tracing" not in new:
        document.pop("tracing", None)
    for kind in KINDS:
        _revise_things(document, kind, old.get(kind, []), new.get(kind, []))
    _revise_edges(document, old.get("edge", []), new.get("edge", []))
    return tomlkit.dumps(document)


def without_drawing(text: str, before: Job, after: Job) -> str:
    """The same with the whole slab written into the file, so that no drawing is needed any more.

    For changes that the drawing contradicts, such as a drawn wall that was taken away.
    """
    document = tomlkit.parse(text)
    old, new = _fresh(before), _fresh(after)
    for kind in ("drawing", *EVERYTHING):
        document.pop(kind, None)
    document["slab"].pop("openings", None)
    _revise_table(document, "slab", {}, new["slab"])
    for name in ("job", "rules", "tracing"):
        _revise_table(document, name, old.get(name, {}), new.get(name, {}))
    if "tracing" not in new:
        document.pop("tracing", None)
    for kind in EVERYTHING:
        if kind in new:
            document.append(kind, new[kind])
    return tomlkit.dumps(document)


def _fresh(job: Job) -> TOMLDocument:
    return tomlkit.parse(job_text(job))


def _revise_table(document: TOMLDocument, name: str, old: Tables, new: Tables) -> None:
    changed = [key for key, value in new.items() if old.get(key) != value]
    gone = [key for key in old if key not in new]
    if changed and name not in document:
        document[name] = tomlkit.table()
    for key in changed:
        _put(document[name], key, new[key])
    for key in gone:
        document.get(name, {}).pop(key, None)


def _revise_edges(document: TOMLDocument, olds: Sequence[Table], news: Sequence[Table]) -> None:
    """Describes every edge anew where their numbers changed with the corners; edges have no names."""
    if list(olds) == list(news):
        return
    document.pop("edge", None)
    if news:
        document.append("edge", news)


def _revise_things(
    document: TOMLDocument, kind: str, olds: Sequence[Table], news: Sequence[Table]
) -> None:
    """Changes, drops and adds the tables of one kind."""
    if list(olds) == list(news):
        return
    found = document.get(kind)
    tables = found if isinstance(found, AoT) else _as_array(document, kind, found or [])
    # What a drawing gives stands before what the file gives itself.
    own = {str(old["id"]): i for i, old in enumerate(olds[len(olds) - len(tables) :])}
    before = {str(old["id"]): old for old in olds}
    after = {str(new["id"]): new for new in news}
    for name, new in after.items():
        if name in own and name in before:
            _change(tables[own[name]], before[name], new)
        elif before.get(name) != new:
            tables.append(_copy(new))
    for name in sorted(own, key=lambda n: -own[n]):
        if name not in after:
            del tables[own[name]]
    if not len(tables):
        document.pop(kind)


def _as_array(document: TOMLDocument, kind: str, found: Sequence[Any]) -> AoT:
    """The tables of a kind as ``[[kind]]`` blocks, where there were none or they stood in one line."""
    document.pop(kind, None)
    tables = tomlkit.aot()
    for each in found:
        tables.append(_copy(each))
    document.append(kind, tables)
    return tables


def _change(table: Table, old: Tables, new: Tables) -> None:
    for key, value in new.items():
        if old.get(key) != value:
            _put(table, key, value)
    for key in old:
        if key not in new and key in table:
            table.remove(key)


def _copy(values: Tables) -> Table:
    table = tomlkit.table()
    for key, value in values.items():
        table.add(key, value)
    return table


def _put(table: Any, key: str, value: Any) -> None:  # noqa: ANN401 - tomlkit's containers have no common type
    """Sets a value and keeps the comment behind the old one."""
    old = _trivia(table, key)
    table[key] = value
    new = _trivia(table, key)
    if old is not None and old.comment and new is not None:
        new.comment, new.comment_ws = old.comment, old.comment_ws


def _trivia(table: Any, key: str) -> Trivia | None:  # noqa: ANN401
    """What stands around a value, its comment too; None where there is no such key.

    The library gives yes and no as plain values without it, so they are asked of what the table holds.
    """
    body = table.value if isinstance(table, AbstractTable) else table
    item = body.item(key) if isinstance(body, Container) and key in body else table.get(key)
    return getattr(item, "trivia", None)
