"""The DXF holds the true geometry in real units and the sheets in paper space, by independent readers."""

import io
import math
from collections import Counter
from dataclasses import replace

import ezdxf
import pyogrio
import pytest
import shapely

from kerfline.app.open_job import open_job
from kerfline.app.wishes import Wishes
from kerfline.files.dxf_marks import plain_text
from kerfline.files.sheet_dxf import dxf_bytes, flat_dxf_bytes
from kerfline.geometry.ring import Ring
from kerfline.model.job import Job, SheetChoice
from kerfline.model.layout import Reason
from kerfline.model.slab import JointKind, Slab
from kerfline.rules.rule_set import load
from kerfline.rules.slab_rules import SlabRules
from kerfline.sheets.check_sheet import check_sheet
from kerfline.sheets.joint_plan import joint_plan
from kerfline.sheets.marks import Layer, Path, Text
from kerfline.units import Unit, parse_length
from shapes import layout_of, workshop_job, workshop_layout
from strategies import turned

RULES = SlabRules(rule_set=load("floor"))
MM = {Unit.FT: 25.4, Unit.MM: 1.0}


def made(units, **choice):
    job = workshop_job(units, SheetChoice(north=30.0, **choice))
    layout = workshop_layout()
    return job, layout, joint_plan(job, layout, (), RULES)


@pytest.fixture(scope="module", params=[Unit.FT, Unit.MM])
def drawn(request):
    job, layout, sheets = made(request.param)
    data = dxf_bytes(job, layout, sheets)
    return MM[request.param], layout, sheets, data, read(data)


def read(data):
    return ezdxf.read(io.StringIO(data.decode("utf-8")))


def test_the_audit_finds_nothing(drawn):
    *_, document = drawn
    auditor = document.audit()
    assert auditor.errors == []
    assert auditor.fixes == []


def test_the_flat_file_passes_the_audit_and_has_an_empty_layout(drawn):
    unit, layout, sheets, _, _ = drawn
    units = Unit.FT if unit == 25.4 else Unit.MM
    flat = read(flat_dxf_bytes(workshop_job(units), layout, sheets))
    assert flat.audit().errors == []
    assert [len(flat.layout(n)) for n in flat.layout_names() if n != "Model"] == [0]


def test_units_are_inches_or_millimetres(drawn):
    unit, *_, document = drawn
    assert document.header["$INSUNITS"] == (1 if unit == 25.4 else 4)
    assert document.header["$DIMLFAC"] == 1
    assert document.header["$LTSCALE"] == drawn[2][0].view.scale
    assert document.header["$PSLTSCALE"] == 0


def test_every_joint_is_one_line_with_its_id_and_length_as_extended_data(drawn):
    unit, layout, _, _, document = drawn
    found = {}
    for entity in document.modelspace().query("LINE LWPOLYLINE"):
        if entity.has_xdata("KERFLINE") and entity.dxf.layer.startswith("S-JNTS"):
            tags = [t.value for t in entity.get_xdata("KERFLINE")]
            found[tags[0]] = (entity, tags)
    assert set(found) == {j.id for j in layout.joints}
    for joint in layout.joints:
        entity, tags = found[joint.id]
        ends = [(e.x * unit, e.y * unit) for e in (entity.dxf.start, entity.dxf.end)]
        assert ends == [pytest.approx(p, abs=1e-6) for p in joint.path]
        assert tags[1] == joint.kind.value
        assert tags[2:] == pytest.approx([joint.length, joint.depth])


@pytest.mark.parametrize("flat", [False, True])
def test_gdal_reads_the_same_joints_and_total_length_to_a_millimetre(drawn, tmp_path, flat):
    unit, layout, sheets, data, _ = drawn
    units = Unit.FT if unit == 25.4 else Unit.MM
    path = tmp_path / "plan.dxf"
    path.write_bytes(flat_dxf_bytes(workshop_job(units), layout, sheets) if flat else data)
    frame = pyogrio.read_dataframe(path)
    if "PaperSpace" in frame:
        frame = frame[frame["PaperSpace"].isna()]
    for kind, layer in (
        (JointKind.CONTROL, Layer.CONTROL),
        (JointKind.CONSTRUCTION, Layer.CONSTRUCTION),
    ):
        lines = frame[frame["Layer"] == layer.value].geometry
        wanted = [j for j in layout.joints if j.kind is kind]
        assert len(lines) == len(wanted)
        assert lines.length.sum() * unit == pytest.approx(sum(j.length for j in wanted), abs=1.0)
    edge = frame[frame["Layer"] == Layer.EDGE.value].geometry.iloc[0]
    assert shapely.Polygon(edge.coords).area * unit**2 == pytest.approx(
        workshop_job().slab.outline.polygon.area, rel=1e-9
    )


def test_gdal_sees_the_dimensions_as_they_are_written(drawn, tmp_path):
    unit, _, _, data, _ = drawn
    path = tmp_path / "plan.dxf"
    path.write_bytes(data)
    frame = pyogrio.read_dataframe(path)
    texts = set(frame[frame["Layer"] == Layer.DIMENSION.value]["Text"].dropna())
    wanted = {"12'-0\"", "60'-0\""} if unit == 25.4 else {"3658", "18288"}
    assert wanted <= texts


def test_paper_space_holds_the_texts_of_the_sheets(drawn):
    *_, sheets, _, document = drawn[1:]
    for sheet, name in zip(sheets, document.layout_names_in_taborder()[1:], strict=True):
        layout = document.layout(name)
        found = Counter(e.dxf.text for e in layout.query("TEXT"))
        found.update(a.dxf.text for e in layout.query("INSERT") for a in e.attribs)
        for dimension in layout.query("DIMENSION"):
            found.update(e.dxf.text for e in document.blocks.get(dimension.dxf.geometry))
        lines = [line for e in layout.query("MTEXT") for line in e.plain_text(split=True)]
        found.update(lines)
        assert found == Counter(plain_text(t.text) for t in sheet.texts)


def test_dimensions_on_sheets_are_real_and_measure_what_they_say(drawn):
    """A reader that measures anew, from the points of each dimension and the factor of its style, reads the same."""
    unit, *_, document = drawn
    count = 0
    for name in document.layout_names_in_taborder()[1:]:
        for dimension in document.layout(name).query("DIMENSION"):
            count += 1
            style = document.dimstyles.get(dimension.dxf.dimstyle)
            one, two = dimension.dxf.defpoint2, dimension.dxf.defpoint3
            (written,) = [e.dxf.text for e in document.blocks.get(dimension.dxf.geometry)]
            if dimension.dxf.dimtype & 7 == 6:
                one, two = dimension.dxf.defpoint, dimension.dxf.defpoint2
                upright = not dimension.dxf.dimtype & 64
            else:
                upright = dimension.dxf.angle == 90.0
            length = abs(two.y - one.y if upright else two.x - one.x) * style.dxf.dimlfac * unit
            said = written.rpartition("= ")[2]
            told = parse_length(said, Unit.IN) if unit > 1 else float(said)
            assert told == pytest.approx(length, abs=25.4 / 8 + 0.01 if unit > 1 else 1.01)
    assert count > 10


def test_the_flat_file_is_in_the_oldest_form_and_says_its_unit(drawn):
    unit, layout, sheets, _, _ = drawn
    job = workshop_job(Unit.FT if unit > 1 else Unit.MM)
    document = read(flat_dxf_bytes(job, layout, sheets))
    assert document.dxfversion == "AC1009"
    kinds = {e.dxftype() for e in document.modelspace()}
    assert kinds <= {"LINE", "TEXT", "POLYLINE", "SOLID", "CIRCLE", "DIMENSION"}
    words = {e.dxf.text for e in document.modelspace().query("TEXT")}
    assert f"one drawing unit is one {'inch' if unit > 1 else 'millimetre'}" in words


OFF_TIES = 3e-4
"""Marks stand on whole and half hundredths (mm); moved by this, none lies where rounding may go either way."""


def near(points):
    """Points to a hundredth of a millimetre, in order."""
    return tuple(
        sorted((round(x + OFF_TIES, 2) + 0.0, round(y + OFF_TIES, 2) + 0.0) for x, y in points)
    )


def test_paper_space_and_its_viewport_hold_the_lines_of_the_sheet(drawn):
    unit, _, sheets, _, document = drawn
    sheet = sheets[0]
    name = document.layout_names_in_taborder()[1]

    def ends(entity, place=lambda p: p):
        points = [place((e.x * unit, e.y * unit)) for e in (entity.dxf.start, entity.dxf.end)]
        return near(points)

    paper = Counter(ends(e) for e in document.layout(name).query("LINE"))
    frozen = set(document.layout(name).query("VIEWPORT")[-1].frozen_layers)
    model = Counter(
        ends(e, sheet.view.to_paper)
        for e in document.modelspace().query("LINE")
        if e.dxf.layer not in frozen
    )
    for mark in sheet.marks:
        if isinstance(mark, Path) and len(mark.points) == 2 and not mark.bulges:
            key = near(mark.points)
            if mark.in_view and mark.layer in (Layer.CONTROL, Layer.CONSTRUCTION, Layer.BARS):
                assert model[key] == 1
            elif not mark.in_view:
                assert paper[key] >= 1


def test_the_viewport_is_at_scale_locked_and_hides_the_models_own_annotation(drawn):
    *_, sheets, _, document = drawn
    name = document.layout_names_in_taborder()[1]
    port = document.layout(name).query("VIEWPORT")[-1]
    assert port.dxf.view_height / port.dxf.height == pytest.approx(sheets[0].view.scale)
    assert port.dxf.flags & 16384
    assert {Layer.TAG.value, Layer.DIMENSION.value} <= set(port.frozen_layers)
    assert document.layers.get(Layer.VIEWPORT.value).dxf.plot == 0


def test_nothing_lies_on_layer_0_and_every_layer_is_ours(drawn):
    *_, document = drawn
    for name in document.layout_names():
        layers = {e.dxf.layer for e in document.layout(name) if e.dxftype() != "VIEWPORT"}
        assert layers <= {layer.value for layer in Layer}


def test_texts_of_ours_are_ascii(drawn):
    *_, document = drawn
    for name in document.layout_names():
        for text in document.layout(name).query("TEXT"):
            assert text.dxf.text.isascii()


def test_a_users_own_letters_and_signs_are_not_lost():
    assert plain_text("Zoë") == "Zoë"
    assert plain_text("2½ × 3 ⌀") == "2 1/2 x 3 %%c"
    assert plain_text("100%%c ^J") == "100% %c ^ J"
    assert plain_text("two\nlines\t") == "two lines "


def test_curved_edges_are_true_arcs():
    radius = 3000.0
    ring = Ring(((0, 0), (6000, 0), (6000, 6000), (0, 6000)), (0.0, 1.0, 0.0, 0.0))
    slab = Slab(outline=ring, thickness=100.0)
    job = Job(name="Apse", units=Unit.MM, slab=slab)
    layout = layout_of(slab, [(JointKind.CONTROL, Reason.SPAN, ((0, 3000), (9000, 3000)))])
    sheets = joint_plan(job, layout, (), RULES)
    document = read(dxf_bytes(job, layout, sheets))
    edge = document.modelspace().query(f'LWPOLYLINE[layer=="{Layer.EDGE.value}"]')[0]
    assert [p[4] for p in edge.get_points()] == [0.0, 1.0, 0.0, 0.0]
    mark = next(
        m for m in sheets[0].marks if isinstance(m, Path) and m.layer is Layer.EDGE and m.in_view
    )
    assert mark.bulges == ring.bulges
    assert math.isclose(slab.outline.polygon.area, 36e6 + math.pi * radius**2 / 2, rel_tol=1e-3)


def test_the_check_bar_measures_100_mm_on_paper():
    job, layout, sheets = made(Unit.MM)
    document = read(dxf_bytes(job, layout, sheets))
    lines = document.layout(document.layout_names_in_taborder()[1]).query("LINE")
    lengths = [
        (e.dxf.end - e.dxf.start).magnitude for e in lines if e.dxf.layer == Layer.SYMBOL.value
    ]
    assert any(v == pytest.approx(100.0, abs=1e-6) for v in lengths)


def test_the_same_input_gives_the_same_bytes_and_leaves_no_option_behind():
    job, layout, sheets = made(Unit.FT)
    before = ezdxf.options.write_fixed_meta_data_for_testing
    assert dxf_bytes(job, layout, sheets) == dxf_bytes(job, layout, sheets)
    assert flat_dxf_bytes(job, layout, sheets) == flat_dxf_bytes(job, layout, sheets)
    assert ezdxf.options.write_fixed_meta_data_for_testing is before


def test_parts_of_a_slab_are_sheets_of_one_model():
    job, layout, sheets = made(Unit.FT, size="letter", scale=48)
    document = read(dxf_bytes(job, layout, sheets))
    assert document.audit().errors == []
    assert len(document.layout_names()) == len(sheets) + 1
    joints = [e for e in document.modelspace().query("LINE") if e.has_xdata("KERFLINE")]
    assert len(joints) == len(layout.joints)
    flat = read(flat_dxf_bytes(job, layout, sheets))
    assert flat.audit().errors == []


def test_a_check_sheet_is_written_too():
    job, layout, _ = made(Unit.FT)
    sheets = check_sheet(job, layout, (), RULES)
    document = read(dxf_bytes(job, layout, sheets))
    assert document.audit().errors == []
    tags = {m.text for s in sheets for m in s.marks if isinstance(m, Text) and m.in_plan}
    space = document.modelspace()
    texts = {e.dxf.text for e in space.query("TEXT")}
    assert tags <= texts | {a.dxf.text for e in space.query("INSERT") for a in e.attribs}


@pytest.mark.parametrize("degrees", [0.0, 30.0, -20.0])
def test_the_viewport_shows_the_model_where_the_sheet_draws_it(degrees):
    slab = turned(workshop_job().slab, degrees)
    job = Job(name="Turned", units=Unit.FT, slab=slab)
    layout = layout_of(slab, [])
    sheets = joint_plan(job, layout, (), RULES)
    document = read(dxf_bytes(job, layout, sheets))
    port = document.layout(document.layout_names_in_taborder()[1]).query("VIEWPORT")[-1]
    matrix = port.get_transformation_matrix()
    for point in slab.outline.points:
        shown = matrix.transform((point[0] / 25.4, point[1] / 25.4, 0.0))
        wanted = [v / 25.4 for v in sheets[0].view.to_paper(point)]
        assert (shown.x, shown.y) == pytest.approx(wanted, abs=1e-6)


@pytest.mark.parametrize("write", [dxf_bytes, flat_dxf_bytes])
def test_a_drawing_of_ours_that_is_read_again_has_the_depths_of_its_cuts(tmp_path, write):
    """Every cut deeper than the one before it: what is read lies on the joint that it was written for."""
    job = workshop_job()
    joints = tuple(
        replace(j, depth=25.0 + n) if j.kind is JointKind.CONTROL else j
        for n, j in enumerate(workshop_layout().joints)
    )
    layout = replace(workshop_layout(), joints=joints)
    path = tmp_path / "again.dxf"
    path.write_bytes(write(job, layout, joint_plan(job, layout, (), RULES)))
    wishes = Wishes()
    again = open_job(path, wishes).slab.joints
    for found in again:
        line = shapely.LineString(found.path)
        along = [j for j in joints if line.buffer(1.0).covers(j.line)]
        sawn = [j.depth for j in along if j.kind is JointKind.CONTROL]
        assert found.depth == (min(sawn) if sawn else None)
    assert sum(j.depth is not None for j in again) == 12  # two in line are one


def test_a_circle_moves_with_its_letter(drawn):
    """Each circle of a sheet is drawn once: with its letter or number, as a block whose circle is where the sheet has it."""
    unit, _, sheets, _, document = drawn
    sheet = sheets[0]
    paper = document.layout(next(n for n in document.layout_names() if "Joint plan" in n))
    wanted = {
        (round(sum(p[0] for p in m.points) / 2 / unit, 3), round(m.points[0][1] / unit, 3)):
        (m.points[1][0] - m.points[0][0]) / 2 / unit
        for m in sheet.marks
        if isinstance(m, Path) and m.closed and m.bulges == (1.0, 1.0) and m.in_plan
        and m.ref != "re-entrant corner"
    }  # fmt: skip
    assert wanted
    found = {}
    for insert in paper.query("INSERT"):
        circles = list(document.blocks.get(insert.dxf.name).query("CIRCLE"))
        if circles:
            assert len(circles) == len(insert.attribs) == 1
            x, y, _ = insert.dxf.insert
            found[round(x, 3), round(y, 3)] = insert.dxf.xscale * circles[0].dxf.radius
    assert wanted.items() <= {k: pytest.approx(v, abs=1e-5) for k, v in found.items()}.items()
    loose = [
        e for e in paper.query("LWPOLYLINE[layer=='S-ANNO-SYMB']")
        if len(e) == 2 and e.closed and tuple(round(v, 3) for v in _middle(e)) in wanted
    ]  # fmt: skip
    assert loose == []


def _middle(polyline):
    (x0, y0, *_), (x1, y1, *_) = polyline.get_points()
    return ((x0 + x1) / 2, (y0 + y1) / 2)
