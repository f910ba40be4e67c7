"""Opens a building model, or says why it cannot be read."""

from pathlib import Path
from typing import Any

from kerfline.errors import InputRefused, Mistake
from kerfline.units import MM_PER_METRE, Unit

MOST_BYTES = 256 * 1024 * 1024
"""A larger model is no plan of one slab; export the ground floor alone."""

END = b"END-ISO-10303-21;"
TAIL = 4096
"""Bytes at the end of a model in which its last word stands (ISO 10303-21)."""

SCHEMAS = ("IFC2X3", "IFC4", "IFC4X3")
INSTALL = "install the reader with: pip install 'kerfline[ifc]'"

ALIKE = 1e-6
"""Share by which two units may differ and be the same."""

_UNITS = {1.0: Unit.M, 0.001: Unit.MM, 0.3048: Unit.FT, 0.0254: Unit.IN}
"""Units of a job by the metres in the model's own unit; any other is shown in mm."""

Library = Any
"""The reader itself, which ships no types that hold."""

Model = Any
"""A model that it has opened."""


def open_model(path: Path) -> Model:
    """Opens a building model.

    Raises:
        InputRefused: The reader is not installed, or the file is too large, cut off, damaged, or of an
            edition of the standard that is not read.
    """
    ifcopenshell = _library(path)
    size = path.stat().st_size
    if size > MOST_BYTES:
        raise _refused(
            path,
            "this model is too large",
            found=f"{size / 2**20:,.0f} MB",
            allowed=f"up to {MOST_BYTES // 2**20} MB",
            remedy="export the lowest floor alone",
        )
    with path.open("rb") as file:
        file.seek(max(0, size - TAIL))
        if END not in file.read():
            raise _refused(path, "this model is cut off", remedy="copy or export it again")
    try:
        model = ifcopenshell.open(str(path))
        schema = str(model.schema)
    except Exception as error:  # whatever damaged text makes the parser do
        raise _refused(path, "this model is damaged", remedy="export it again") from error
    if schema not in SCHEMAS:
        raise _refused(
            path,
            "this edition of IFC is not read",
            found=schema,
            allowed=", ".join(SCHEMAS),
            remedy="export it in one of these",
        )
    return model


def unit_of(model: Model) -> Unit:
    """The unit that the model is drawn in, for showing lengths."""
    from ifcopenshell.util.unit import calculate_unit_scale

    metres = float(calculate_unit_scale(model))
    return next((u for scale, u in _UNITS.items() if abs(metres / scale - 1) < ALIKE), Unit.MM)


def mm_per_unit(model: Model) -> float:
    """Millimetres in one of the model's units of length."""
    from ifcopenshell.util.unit import calculate_unit_scale

    return float(calculate_unit_scale(model)) * MM_PER_METRE


def _library(path: Path) -> Library:
    try:
        import ifcopenshell
    except ImportError:
        raise _refused(
            path, "this is a building model, and its reader is not installed", remedy=INSTALL
        ) from None
    return ifcopenshell


def _refused(
    path: Path, what: str, *, found: str = "", allowed: str = "", remedy: str = ""
) -> InputRefused:
    return InputRefused(
        Mistake(what=what, where=path.name, found=found, allowed=allowed, remedy=remedy)
    )
