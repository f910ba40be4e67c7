"""Pydantic's errors as mistakes in our words, each with its place in the file."""

import difflib
from typing import Any

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from kerfline.errors import Mistake
from kerfline.files.job_locate import Key, Places
from kerfline.files.job_values import OURS

LONGEST = 60
"""Values longer than this are shortened in a message."""

_SENTENCES = {
    "string_type": "text is needed here",
    "bool_type": "true or false is needed here",
    "int_type": "a whole number is needed here",
    "list_type": "a list is needed here",
    "dict_type": "a table is needed here",
    "model_type": "a table is needed here",
    "model_attributes_type": "a table is needed here",
    "string_too_short": "this must not be empty",
}


def mistakes_of(error: ValidationError, schema: type[BaseModel], places: Places) -> list[Mistake]:
    """Every error of one validation, in the order of the file."""
    found = [_mistake(e, schema, places) for e in error.errors(include_url=False)]
    return list(dict.fromkeys(found))


def _mistake(error: ErrorDetails, schema: type[BaseModel], places: Places) -> Mistake:
    key: Key = error["loc"]
    context: dict[str, Any] = error.get("ctx", {})
    match error["type"]:
        case "missing":
            what = f'"{key[-1]}" is missing'
            return Mistake(what=what, where=places.of(key), remedy=_how_to_add(key))
        case "extra_forbidden":
            known = _known_keys(schema, key[:-1])
            meant = difflib.get_close_matches(str(key[-1]), known, n=1)
            return Mistake(
                what=f'there is no "{key[-1]}" here',
                where=places.of(key),
                remedy=f'did you mean "{meant[0]}"?'
                if meant
                else f"known here: {', '.join(known)}",
            )
        case "enum":
            what, allowed = "this word is not allowed here", str(context["expected"])
        case "too_short" | "too_long":
            what = "the number of items does not fit"
            bound = "min_length" if error["type"] == "too_short" else "max_length"
            allowed = f"{'at least' if bound == 'min_length' else 'at most'} {context[bound]}"
        case "greater_than_equal":
            what, allowed = "this number is too small", f"{context['ge']} or more"
        case "less_than_equal":
            what, allowed = "this number is too large", f"{context['le']} or less"
        case kind if kind == OURS:
            return Mistake(where=places.of(key), found=_shown(error["input"]), **context)
        case kind:
            what, allowed = _SENTENCES.get(kind, error["msg"].lower()), ""
    return Mistake(what=what, where=places.of(key), found=_shown(error["input"]), allowed=allowed)


def _how_to_add(key: Key) -> str:
    if key == ("job", "units"):
        return 'write units = "ft", "in", "m" or "mm" under [job]'
    if len(key) == 1:
        return f"add a table [{key[0]}]"
    if key == ("slab", "thickness"):
        return 'write thickness = "4 in" or "100 mm", whatever it is, under [slab]'
    return f'write "{key[-1]} = " and its value'


def _known_keys(schema: type[BaseModel], path: Key) -> list[str]:
    """The keys of the table at a path."""
    here: type[BaseModel] = schema
    for part in path:
        if isinstance(part, str):
            here = _table_of(here, part)
    return list(here.model_fields)


def _table_of(schema: type[BaseModel], key: str) -> type[BaseModel]:
    """The model under a key, out of its list or its option."""
    annotation: Any = schema.model_fields[key].annotation
    options = [annotation, *getattr(annotation, "__args__", ())]
    return next(o for o in options if isinstance(o, type) and issubclass(o, BaseModel))


def _shown(value: object) -> str:
    try:
        text = repr(value)
    except ValueError:  # a whole number of thousands of digits
        return "an endless number"
    return text if len(text) <= LONGEST else text[:LONGEST] + " ..."
