"""A drawing is dropped on the page: its layers are shown, the unit is asked, and nothing in it is trusted."""

from pathlib import Path

import ezdxf
import pytest

from kerfline.app.wishes import Wishes
from kerfline.errors import InputRefused
from kerfline.web.desk import Desk
from kerfline.web.long_work import Stopped
from paged import FT, client, look, opened, take

HOSTILE = '"><svg onload=alert(1)>'


def drawing(path, *, unit=2, joints=False, layer="SLAB", text=""):
    """A DXF of a slab of 30 by 20 with one wall, in the unit of that $INSUNITS code."""
    document = ezdxf.new()
    document.header["$INSUNITS"] = unit
    space = document.modelspace()
    outline = [(0, 0), (30, 0), (30, 20), (0, 20)]
    space.add_lwpolyline(outline, close=True, dxfattribs={"layer": layer})
    space.add_line((10, 0), (10, 20), dxfattribs={"layer": "A-WALL"})
    if joints:
        space.add_line((20, 0), (20, 20), dxfattribs={"layer": "S-JOINT"})
    if text:
        space.add_text(text)
    document.saveas(path)
    return path


@pytest.fixture
def page(tmp_path):
    desk, _ = opened(tmp_path)
    return client(desk)


def test_the_layers_are_shown_with_what_they_are_taken_for(page, tmp_path):
    seen = look(page, drawing(tmp_path / "plan.dxf")).json()

    layers = {layer["name"]: layer for layer in seen["layers"]}
    assert layers["SLAB"]["role"] == "outline"
    assert layers["A-WALL"]["role"] == "walls"
    assert layers["A-WALL"]["paths"] == [[[10 * FT, 0.0], [10 * FT, 20 * FT]]]
    assert seen["declared"] == "feet"


def test_the_unit_is_asked_with_what_each_answer_would_mean(page, tmp_path):
    seen = look(page, drawing(tmp_path / "plan.dxf", unit=0)).json()

    sizes = {each["unit"]: each["text"] for each in seen["units"]}
    assert seen["declared"] == ""
    assert sizes["ft"] == "30'-0\" x 20'-0\""
    assert sizes["in"] == "2'-6\" x 1'-8\""
    assert sizes["m"] == "30.0 m x 20.0 m"
    assert [each["unit"] for each in seen["units"] if each["likely"]] == ["ft", "m"]


def test_the_user_may_say_another_unit(page, tmp_path):
    path = drawing(tmp_path / "plan.dxf")
    seen = look(page, path, "m").json()

    assert seen["unit"] == "m"
    answer = take(page, seen).json()
    assert answer["picture"]["bounds"] == [0, 0, 30000, 20000]


def test_what_is_taken_becomes_the_state_and_is_laid_out(page, tmp_path):
    seen = look(page, drawing(tmp_path / "plan.dxf")).json()

    answer = take(page, seen).json()

    assert answer["state"]["slab"]["thickness"] == pytest.approx(127)
    assert len(answer["picture"]["slab"]["walls"]) == 1
    assert answer["picture"]["totals"]["errors"] == 0


def test_joints_in_the_drawing_are_kept_and_not_laid_out_anew(page, tmp_path):
    seen = look(page, drawing(tmp_path / "plan.dxf", joints=True)).json()
    roles = {"SLAB": "outline", "S-JOINT": "joints"}

    answer = take(page, seen, roles=roles).json()

    assert len(answer["state"]["joints"]) == 1
    assert answer["state"]["joints"][0]["pinned"]


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"roles": {"A-WALL": "walls"}}, "no layer is the outline"),
        ({"roles": {"SLAB": "moat"}}, "say of each layer"),
        ({"roles": "all"}, "say of each layer"),
        ({"roles": {"NOWHERE": "outline"}}, "no layer"),
        ({"thickness": ""}, "not a length"),
        ({"thickness": "5 miles"}, "not a length"),
        ({"unit": "cubits"}, "no such unit"),
        ({"name": "../plan.dxf"}, "not here any more"),
        ({"name": None}, "not here any more"),
    ],
)
def test_what_cannot_be_taken_is_refused_in_words(page, tmp_path, changes, says):
    seen = look(page, drawing(tmp_path / "plan.dxf")).json()

    answer = take(page, seen, **changes)

    assert answer.status_code == 422
    assert says in answer.json()["refused"][0]


@pytest.mark.parametrize(
    "content", [b"", b"hello", b"\x00" * 1000, b"0\nSECTION\n2\nENTITIES\n", b"AC1032"]
)
def test_what_is_no_drawing_is_refused_without_naming_a_file_of_ours(page, tmp_path, content):
    answer = page.post("import/look", content=content)

    assert answer.status_code == 422
    assert "kerfline-" not in answer.json()["refused"][0]
    assert sorted(p.name for p in tmp_path.iterdir()) == ["boathouse.toml"]


def test_hostile_names_and_texts_stay_data(page, tmp_path):
    """The page sets every text as text; here it must only come through whole, as JSON."""
    name = "onload=alert(1)//img src=x"
    path = drawing(tmp_path / "plan.dxf", layer="PLACEHOLDER", text=HOSTILE)
    path.write_text(path.read_text().replace("PLACEHOLDER", name))

    answer = look(page, path)

    assert answer.headers["content-type"] == "application/json"
    assert name in [layer["name"] for layer in answer.json()["layers"]]


def test_a_page_opened_on_a_drawing_asks_and_then_saves_a_job_beside_it(tmp_path):
    path = drawing(tmp_path / "plan.dxf")
    desk = Desk(path, Wishes(thickness="4 in"))
    page = client(desk)

    asked = page.post("open", json={}).json()
    answer = take(page, asked["drawing"]).json()
    saved = page.post("save", json={"state": answer["state"], "revision": asked["revision"]})

    assert asked["thickness"] == "4 in"
    assert saved.json()["file"] == "plan.toml"
    again = Desk(path).open({})
    assert again["state"] == answer["state"] | {"name": "plan"}
    assert "beside the drawing" in again["restored"]


def test_a_draft_of_a_drawing_comes_back(tmp_path):
    path = drawing(tmp_path / "plan.dxf")
    desk = Desk(path)
    page = client(desk)
    asked = page.post("open", json={}).json()
    answer = take(page, asked["drawing"]).json()
    page.post("draft", json={"state": answer["state"], "revision": asked["revision"]})

    again = Desk(path).open({})

    assert again["state"] == answer["state"]


def test_an_import_into_a_job_can_be_saved_there(tmp_path):
    desk, begun = opened(tmp_path)
    page = client(desk)
    seen = look(page, drawing(tmp_path / "plan.dxf", unit=6)).json()
    answer = take(page, seen, thickness="150 mm").json()

    saved = page.post("save", json={"state": answer["state"], "revision": begun["revision"]})

    assert saved.status_code == 200, saved.text
    again = Desk(desk.disk.path).open({})
    assert again["picture"]["bounds"] == pytest.approx([0, 0, 30000, 20000])
    assert "# of bare numbers" in desk.disk.path.read_text()


def two_slabs(path):
    """A DXF with two buildings on one site, alike in everything but place and size."""
    document = ezdxf.new()
    document.header["$INSUNITS"] = 2
    space = document.modelspace()
    for x, wide in ((0, 30), (60, 34)):
        outline = [(x, 0), (x + wide, 0), (x + wide, 20), (x, 20)]
        space.add_lwpolyline(outline, close=True, dxfattribs={"layer": "SLAB"})
    document.saveas(path)
    return path


def test_of_several_candidates_the_one_that_is_chosen_is_taken(page, tmp_path):
    seen = look(page, two_slabs(tmp_path / "plan.dxf")).json()
    assert seen["slab"] == 0
    assert len(seen["candidates"]) == 2
    wide = {
        each["number"]: max(p[0] for p in each["ring"]) - min(p[0] for p in each["ring"])
        for each in seen["candidates"]
    }
    number = min(wide, key=wide.get)

    x0, _, x1, _ = take(page, seen, slab=number, roles={"SLAB": "outline"}).json()["picture"][
        "bounds"
    ]
    assert x1 - x0 == pytest.approx(30 * FT)


def test_a_unit_that_is_open_is_never_chosen_for_the_user(page, tmp_path):
    assert look(page, drawing(tmp_path / "plan.dxf", unit=0)).json()["known"] is False
    assert look(page, drawing(tmp_path / "plan.dxf", unit=0), "m").json()["known"] is True
    assert look(page, drawing(tmp_path / "plan.dxf")).json()["known"] is True


def test_a_dwg_a_pdf_and_a_model_are_read_like_a_dxf(page, tmp_path):
    """What is dropped is told by what stands in it; a PDF's page and scale are said beside it."""
    pytest.importorskip("ifcopenshell")
    from unit.files.test_drawn_parts import as_dwg, as_ifc, as_pdf

    roles = {}
    for write, said in ((as_dwg, ""), (as_pdf, "&page=1&scale=1:100"), (as_ifc, "")):
        write(tmp_path / "plan")
        content = (tmp_path / "plan").read_bytes()
        seen = page.post(f"import/look?units={said}", content=content).json()
        roles = {layer["name"]: layer["role"] for layer in seen["layers"] if layer["role"]}
        slab = seen["candidates"][0]["number"] if seen["candidates"] else 0

        answer = take(page, seen, roles=roles, slab=slab, thickness="100 mm").json()

        assert answer["picture"]["bounds"][2] - answer["picture"]["bounds"][0] == pytest.approx(
            12_000, abs=1
        )
        assert any(words.startswith("Slab: ") or "slab" in words for words in answer["notes"])
        assert len(answer["notes"]) <= 10


def test_a_pdf_whose_scale_nobody_says_is_asked_about(page, tmp_path):
    from reportlab.pdfgen.canvas import Canvas

    canvas = Canvas(str(tmp_path / "plan.pdf"), pagesize=(600, 600))
    for x in range(6):
        canvas.rect(100, 100, 200 + x, 200)
    canvas.save()

    refused = page.post("import/look", content=(tmp_path / "plan.pdf").read_bytes())

    assert refused.status_code == 422
    assert "scale" in refused.json()["refused"][0]


def test_a_picture_is_refused_by_its_kind(page):
    refused = page.post("import/look", content=b"\x89PNG\r\n\x1a\n" + bytes(40))
    assert refused.status_code == 422
    assert "picture" in refused.json()["refused"][0]


def test_a_page_opened_on_a_size_begins_with_that_slab(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    desk = Desk(Path("40 ft x 28 ft"), Wishes(thickness="4 in"))
    page = client(desk)
    seen = page.post("open", json={}).json()
    assert seen["picture"]["bounds"] == pytest.approx([0, 0, 40 * FT, 28 * FT])

    page.post("save", json={"state": seen["state"], "revision": seen["revision"]})

    assert desk.disk.job_file.is_file()
    with pytest.raises(InputRefused, match="already"):
        Desk(Path("40 ft x 28 ft"), Wishes(thickness="4 in"))


def test_a_job_that_names_a_drawing_says_how_it_was_read(tmp_path):
    drawing(tmp_path / "plan.dxf")
    job = tmp_path / "house.toml"
    job.write_text(
        '[job]\nname = "House"\nunits = "ft"\n[slab]\nthickness = "4 in"\n'
        '[drawing]\nfile = "plan.dxf"\noutline = ["SLAB"]\nwalls = ["A-WALL"]\n'
    )

    reading = Desk(job).open({})["reading"]

    assert reading[0].startswith("Slab: ")
    assert any(words.startswith("Walls: 1 interior wall") for words in reading)
    assert len(reading) <= 10


def model(path, *, cellar):
    """A building model of two floors: side by side on ground, or the lower one a cellar's ceiling."""
    pytest.importorskip("ifcopenshell")
    from models import ModelWriter, rectangle

    writer = ModelWriter()
    writer.prism("IfcSlab", rectangle(0, 0, 9000, 6000), -200, 0, predefined="FLOOR")
    if cellar:
        writer.wall((0, 100), (9000, 100), 200, -2700, -200, storey="Cellar")
        slab = rectangle(0, 0, 6000, 5000), 2700, 2850
    else:
        slab = rectangle(9000, 0, 6000, 5000), -150, 0
    writer.prism("IfcSlab", *slab, predefined="FLOOR", storey="Annexe")
    writer.wall((0, 3000), (9000, 3000), 120, 0, 2700)
    writer.save(path)
    return path


@pytest.fixture
def quick(monkeypatch):
    """Models are read here, which another test holds to the reading in a process of its own."""
    pytest.importorskip("ifcopenshell")
    from kerfline.files.building import read_apart, read_building

    monkeypatch.setattr(read_apart, "read_building_apart", read_building)


def again(page, seen, **said):
    return page.post("import/look-again", json={"name": seen["name"], "unit": "mm", **said}).json()


def test_of_several_floors_of_a_model_the_user_says_which(page, tmp_path, quick):
    seen = look(page, model(tmp_path / "plan.ifc", cellar=False)).json()
    assert seen["model"]
    assert seen["asks"] == "the model has 2 slabs that can be meant"
    assert seen["layers"] == []
    assert [each["words"].split(",")[0] for each in seen["candidates"]] == [
        "9000 mm x 6000 mm",
        "6000 mm x 5000 mm",
    ]
    assert (seen["storeys"], seen["together"]) == (["Ground floor", "Annexe"], True)

    one, both = again(page, seen, floor="2"), again(page, seen, floor="all")
    assert (one["asks"], one["units"][3]["text"]) == ("", "6000 mm x 5000 mm")
    assert one["thickness"] == "150 mm"
    assert both["units"][3]["text"] == "15000 mm x 6000 mm"

    answer = take(page, again(page, seen, floor="2"), roles={"slab": "outline"}, thickness="")
    assert answer.json()["state"]["slab"]["thickness"] == pytest.approx(150)


def test_a_storey_of_a_model_is_chosen_where_nothing_lies_on_ground(page, tmp_path, quick):
    seen = look(page, model(tmp_path / "plan.ifc", cellar=True)).json()
    assert seen["asks"].startswith("no floor lies on ground")
    assert not seen["together"]

    answer = again(page, seen, storey="Ground floor")

    assert (answer["asks"], answer["units"][3]["text"]) == ("", "9000 mm x 6000 mm")
    assert {layer["role"] for layer in answer["layers"]} == {"outline", "walls"}


def test_what_nobody_wants_any_more_is_let_go(page, tmp_path):
    seen = look(page, drawing(tmp_path / "plan.dxf")).json()
    assert page.post("import/leave", json={"name": seen["name"]}).json() == {}
    assert take(page, seen).status_code == 422
    taken = look(page, drawing(tmp_path / "plan.dxf")).json()
    assert take(page, taken).status_code == 200
    assert take(page, taken).status_code == 422


def test_a_reading_that_is_stopped_leaves_nothing(tmp_path, monkeypatch):
    """Neither a file of the moment nor the drawing stays, and a file that is opened alone stays unopened."""
    path = drawing(tmp_path / "plan.dxf")
    desk = Desk(path)
    beside = []

    def stopped(name, work, *asked):
        beside.extend(p.suffix for p in tmp_path.iterdir())
        raise Stopped("Stopped.")

    monkeypatch.setattr(desk.works, "do", stopped)

    answer = client(desk).post("import/look?work=one", content=path.read_bytes())

    assert answer.json()["refused"] == ["Stopped."]
    assert ".drawing" in beside
    assert sorted(p.suffix for p in tmp_path.iterdir()) == [".dxf"]
    assert desk.incoming.arrivals.kept == {}
    with pytest.raises(Stopped):
        desk.open({"work": "two"})
    assert desk.open({"bare": True})["undrawn"]
