"""Lays one rule set's tables over another's, and says whose each changed figure is."""

from collections.abc import Mapping

USER: Mapping[str, object] = {"publication": "the job's own rules", "known": "user"}
FIGURES = ("span", "aspect", "width", "angle", "area")
BOUNDS = ("maximum", "least")
SHAPES = (("times", "cap", "cap_below"), ("rows", "columns"))


def inherit(base: Mapping[str, object], own: Mapping[str, object]) -> dict[str, object]:
    """A set on top of the one that it is like: whole figures replaced, cut methods one by one."""
    merged = {**base, **own}
    merged["cut"] = {**_mapping(base.get("cut")), **_mapping(own.get("cut"))}
    merged["conditions"] = own.get("conditions", [])
    return merged


def override(base: Mapping[str, object], changes: Mapping[str, object]) -> dict[str, object]:
    """A set with the user's changes: single values replaced, and marked as the user's own."""
    merged = {**base, **changes}
    for name in FIGURES:
        change = changes.get(name)
        if isinstance(change, Mapping):
            merged[name] = _figure(_mapping(base.get(name)), change)
    cut = changes.get("cut")
    if isinstance(cut, Mapping):
        own = {method: _with_source(rows) for method, rows in cut.items()}
        merged["cut"] = {**_mapping(base.get("cut")), **own}
    return merged


def _figure(base: Mapping[str, object], change: Mapping[str, object]) -> dict[str, object]:
    merged = {**base, **change}
    for key in ("advised", *BOUNDS):
        if isinstance(base.get(key), Mapping) and isinstance(change.get(key), Mapping):
            merged[key] = _step(_mapping(base[key]), _mapping(change[key]))
    if "advised" in change:
        merged["advised_source"] = change.get("advised_source", USER)
    elif any(key in change for key in BOUNDS) and "source" in base:
        merged.setdefault("advised_source", base["source"])
    if any(key in change for key in BOUNDS):
        merged["source"] = change.get("source", USER)
    return merged


def _step(base: Mapping[str, object], change: Mapping[str, object]) -> dict[str, object]:
    """A changed step of the span; a table in place of a multiple, or the reverse, drops the other."""
    for shape in SHAPES:
        if shape[0] in change and shape[0] not in base:
            return dict(change)
    return {**base, **change}


def _with_source(rows: object) -> object:
    if not isinstance(rows, list):
        return rows
    return [{"source": USER, **row} if isinstance(row, Mapping) else row for row in rows]


def _mapping(value: object) -> Mapping[str, object]:
    return value if isinstance(value, Mapping) else {}
