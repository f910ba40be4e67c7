"""Sheets as files: one PDF for the set, one SVG for each sheet."""

from collections.abc import Sequence

from kerfline.sheets.marks import Sheet


def sheet_files(stem: str, sheets: Sequence[Sheet]) -> dict[str, bytes]:
    """The files of a set of sheets by name: ``STEM.pdf``, ``STEM.svg``, ``STEM-2.svg``, ..."""
    from kerfline.files.sheet_pdf import pdf_bytes
    from kerfline.files.sheet_svg import svg_bytes

    files = {f"{stem}.pdf": pdf_bytes(sheets)}
    for number, sheet in enumerate(sheets, start=1):
        part = "" if number == 1 else f"-{number}"
        files[f"{stem}{part}.svg"] = svg_bytes(sheet)
    return files
