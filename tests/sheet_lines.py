"""The lines of a sheet and of the files that were written from it, for comparison."""

import ctypes
import xml.etree.ElementTree as ET

import pypdfium2.raw as pdfium
import pytest

from kerfline.files.sheet_svg import svg_bytes
from kerfline.sheets.marks import Path

MM_PER_POINT = 25.4 / 72

SVG = "{http://www.w3.org/2000/svg}"


def rounded(points):
    return tuple(sorted((round(x, 2), round(y, 2)) for x, y in points))


def near(found, wanted):
    """Whether two lists of segments agree to a hundredth of a millimetre or so."""
    assert len(found) == len(wanted)
    for one, other in zip(sorted(found), sorted(wanted), strict=True):
        for a, b in zip(one, other, strict=True):
            assert a == pytest.approx(b, abs=0.021)


def scene_lines(sheet):
    return [
        rounded(m.points)
        for m in sheet.marks
        if isinstance(m, Path) and len(m.points) == 2 and not m.bulges
    ]


def svg_lines(sheet):
    root = ET.fromstring(svg_bytes(sheet))
    height = sheet.paper.height
    return [
        rounded((float(e.get(f"x{i}")), height - float(e.get(f"y{i}"))) for i in (1, 2))
        for e in root.iter(f"{SVG}line")
    ]


def pdf_paths(page):
    for found in page.get_objects(filter=[pdfium.FPDF_PAGEOBJ_PATH]):
        points = []
        for i in range(pdfium.FPDFPath_CountSegments(found.raw)):
            segment = pdfium.FPDFPath_GetPathSegment(found.raw, i)
            x, y = ctypes.c_float(), ctypes.c_float()
            pdfium.FPDFPathSegment_GetPoint(segment, x, y)
            kind = pdfium.FPDFPathSegment_GetType(segment)
            points.append((kind, x.value * MM_PER_POINT, y.value * MM_PER_POINT))
        yield points


def pdf_lines(page):
    straight = [pdfium.FPDF_SEGMENT_MOVETO, pdfium.FPDF_SEGMENT_LINETO]
    return [
        rounded((x, y) for _, x, y in path)
        for path in pdf_paths(page)
        if [kind for kind, _, _ in path] == straight
    ]
