"""A new document with our layers, line types, text style and dimension style."""

import pytest
from ezdxf.lldxf.const import DXF12

from kerfline.files.dxf_setup import (
    APP_ID,
    BLACK,
    COLOURS,
    DIM_STYLE,
    LINE_TYPES,
    OLDEST,
    RING_BLOCKS,
    STYLE,
    TAG_BLOCKS,
    TEXT_HEIGHT,
    new_document,
    paper_dim_style,
    unit_length,
)
from kerfline.model.job import SheetChoice
from kerfline.sheets.marks import PENS, Layer
from kerfline.units import Unit
from shapes import workshop_job

FEET, METRIC = workshop_job(Unit.FT), workshop_job(Unit.MM)


@pytest.mark.parametrize(("job", "length", "code"), [(FEET, 25.4, 1), (METRIC, 1.0, 4)])
def test_a_drawing_unit_is_an_inch_or_a_millimetre(job, length, code):
    assert unit_length(job) == length
    assert new_document(job, 96).header["$INSUNITS"] == code


def test_every_layer_has_its_pen_colour_and_type_of_line():
    document = new_document(METRIC, 100)
    for layer, pen in PENS.items():
        entry = document.layers.get(layer.value)
        assert entry.dxf.lineweight == round(100 * pen.width)
        assert entry.dxf.color == COLOURS.get(layer, BLACK)
        assert entry.dxf.linetype == LINE_TYPES.get(layer, "Continuous")
        assert entry.dxf.plot == (0 if layer is Layer.VIEWPORT else 1)


def test_lines_are_dashed_as_on_paper_at_the_scale():
    document = new_document(FEET, 96)
    assert document.header["$LTSCALE"] == 96
    pattern = document.linetypes.get("DASHED").pattern_tags.tags
    dash = PENS[Layer.CONTROL].dash
    assert [tag.value for tag in pattern if tag.code == 40] == [pytest.approx(sum(dash) / 25.4)]
    assert [tag.value for tag in pattern if tag.code == 49] == pytest.approx(
        [d / 25.4 if n % 2 == 0 else -d / 25.4 for n, d in enumerate(dash)]
    )


def test_a_sheets_dimensions_are_lengths_of_the_slab_in_sizes_of_paper():
    document = new_document(METRIC, 100)
    name = paper_dim_style(document, 1.0, 50)
    style = document.dimstyles.get(name)
    assert (style.dxf.dimtxt, style.dxf.dimlfac) == (TEXT_HEIGHT, 50)
    assert paper_dim_style(document, 1.0, 50) == name
    assert paper_dim_style(document, 1.0, 12.5) == f"{DIM_STYLE}_12_5"
    assert document.dimstyles.get(DIM_STYLE).dxf.dimtxt == pytest.approx(100 * TEXT_HEIGHT)


def test_dimensions_round_as_the_sheets_do():
    feet, metric = (new_document(j, 96).dimstyles.get(DIM_STYLE).dxf for j in (FEET, METRIC))
    assert (feet.dimlunit, feet.dimrnd) == (4, 0.125)
    assert (metric.dimlunit, metric.dimrnd) == (2, 1.0)
    assert feet.dimtxsty == STYLE


def test_tags_are_blocks_with_an_attribute_and_some_a_circle():
    document = new_document(METRIC, 100)
    for name in TAG_BLOCKS.values():
        assert [e.dxftype() for e in document.blocks.get(name)] == ["ATTDEF"]
    for name in RING_BLOCKS.values():
        circle, text = document.blocks.get(name)
        assert (circle.dxf.radius, text.dxf.tag) == (1.0, "NAME")


def test_the_oldest_form_has_no_blocks_of_tags():
    document = new_document(METRIC, 100, OLDEST)
    assert document.dxfversion == DXF12
    assert "TAG" not in document.blocks
    assert APP_ID in document.appids


def test_the_mark_of_a_run_stands_in_the_header():
    said = new_document(workshop_job(Unit.MM, SheetChoice(mark="A1")), 100).header.custom_vars
    assert said.get("RUN MARK") == "A1"
    assert not new_document(METRIC, 100).header.custom_vars.has_tag("RUN MARK")
