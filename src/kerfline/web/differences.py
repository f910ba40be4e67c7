"""What differs between two answers of the page, so that a change sends that alone.

A difference is a short list whose first part says how to read it: ``["=", value]`` puts a value in the
place of the old one; ``["{", {key: difference}, [keys gone]]`` changes parts of an object; ``["#", order,
{id: value}]`` changes a list of things that have ids, ``order`` naming them all where it is not as before.
``patched`` is the same in ``static/patch.js``.
"""

from typing import Any

Json = Any
Difference = list[Any]


def difference(old: Json, new: Json) -> Difference | None:
    """What turns one value into another; None where they are the same."""
    if old is new or old == new:
        return None
    if isinstance(old, dict) and isinstance(new, dict):
        return _of_objects(old, new)
    if isinstance(old, list) and isinstance(new, list):
        return _of_lists(old, new) or ["=", new]
    return ["=", new]


def _of_objects(old: dict[str, Json], new: dict[str, Json]) -> Difference:
    changed = {key: ["=", value] for key, value in new.items() if key not in old}
    for key in old.keys() & new.keys():
        if part := difference(old[key], new[key]):
            changed[key] = part
    return ["{", changed, sorted(old.keys() - new.keys())]


def _of_lists(old: list[Json], new: list[Json]) -> Difference | None:
    """The difference of two lists of things with ids; None where they are not such lists."""
    before, after = _by_id(old), _by_id(new)
    if before is None or after is None:
        return None
    put = {
        key: value
        for key, value in after.items()
        if (was := before.get(key)) is not value and was != value
    }
    order = None if list(before) == list(after) else list(after)
    return ["#", order, put]


def _by_id(items: list[Json]) -> dict[str, Json] | None:
    """Things by their ids, in their order; None where one has none, or two have the same."""
    out = {}
    for item in items:
        if not isinstance(item, dict) or not isinstance(item.get("id"), str):
            return None
        out[item["id"]] = item
    return out if len(out) == len(items) else None


def patched(old: Json, change: Difference | None) -> Json:
    """The new value; the old one stays as it was."""
    if change is None:
        return old
    match change:
        case ["=", value]:
            return value
        case ["{", parts, gone]:
            kept = {key: value for key, value in old.items() if key not in gone}
            return kept | {key: patched(old.get(key), part) for key, part in parts.items()}
        case ["#", order, put]:
            known = {item["id"]: item for item in old} | put
            return [known[key] for key in (order if order is not None else [i["id"] for i in old])]
    message = "no such difference"
    raise ValueError(message)
