"""A picture or a page is opened, held within limits, and drawn as it is shown."""

import io
import json

import pytest
from PIL import Image
from reportlab.pdfgen.canvas import Canvas

from kerfline.files.tracing import opened
from kerfline.files.tracing.opened import told


def picture(size=(300, 200), mode="RGB", kind="PNG", colour=None, **more) -> bytes:
    out = io.BytesIO()
    Image.new(mode, size, colour or 0).save(out, kind, **more)
    return out.getvalue()


def page(size=(144, 72)) -> bytes:
    out = io.BytesIO()
    canvas = Canvas(out, pagesize=size)
    canvas.rect(9, 9, 20, 20, fill=1)
    canvas.showPage()
    canvas.save()
    return out.getvalue()


def look(data, kind="PNG", **more):
    return json.loads(told({"do": "look", "name": "plan", "kind": kind, "page": 0, **more}, data))


def show(data, kind="PNG", **more) -> Image.Image:
    answer = told({"do": "show", "name": "plan", "kind": kind, "page": 0, **more}, data)
    return Image.open(io.BytesIO(answer))


def test_a_picture_has_its_size_and_no_pages():
    assert look(picture()) == {"pages": 0, "size": [300, 200]}


def test_one_that_was_taken_on_its_side_is_upright():
    exif = Image.Exif()
    exif[0x0112] = 6
    data = picture(kind="JPEG", exif=exif)
    assert look(data, "JPEG")["size"] == [200, 300]
    assert show(data, "JPEG").size == (200, 300)


def test_a_page_has_its_size_in_points():
    assert look(page(), "PDF", page=1) == {"pages": 1, "size": [144, 72]}
    assert show(page(), "PDF", page=1).size == (432, 216)


def test_a_page_that_is_not_there_is_refused():
    assert look(page(), "PDF", page=2)["refused"][0]["what"] == "there is no such page"


@pytest.mark.parametrize(("most", "fine"), [(60000, True), (59999, False)])
def test_too_many_pixels_are_refused_before_they_are_decoded(monkeypatch, most, fine):
    monkeypatch.setattr(opened, "MOST_PIXELS", most)
    answer = look(picture())
    assert ("refused" not in answer) is fine
    if not fine:
        assert answer["refused"][0]["found"] == "300 x 200 pixels"


def test_a_side_too_long_is_refused(monkeypatch):
    monkeypatch.setattr(opened, "LONGEST_SIDE", 299)
    assert look(picture())["refused"][0]["what"] == "this picture is too large"


def test_a_damaged_picture_is_told():
    (mistake,) = look(picture()[:60])["refused"]
    assert mistake["what"] == "this picture is damaged or cut off"
    assert mistake["where"] == "plan"


def test_a_large_picture_is_shown_smaller(monkeypatch):
    monkeypatch.setattr(opened, "SHOWN_PIXELS", 600)
    shown = show(picture())
    assert shown.size == (30, 20)
    monkeypatch.setattr(opened, "SHOWN_PIXELS", 60000)
    assert show(picture()).size == (300, 200)


def test_what_shines_through_stays_clear():
    assert show(picture(mode="RGBA", colour=(255, 0, 0, 0))).getpixel((5, 5))[3] == 0
    assert show(picture(colour=(255, 0, 0))).format == "JPEG"


def test_a_picture_of_deep_greys_is_brought_to_eight_bits():
    shown = show(picture(mode="I;16", colour=65535)).convert("RGB")
    assert shown.getpixel((5, 5)) == (255, 255, 255)


def test_it_is_straightened_and_clear_outside():
    """Ten mm of plan to the pixel; half of the box is within what the picture shows."""
    straight = {
        "box": [0, 0, 100, 50],
        "fineness": 1.0,
        "back": {"rows": [[3, 0, 0], [0, -4, 200], [0, 0, 1]]},
        "within": [[0, 0], [50, 0], [50, 50], [0, 50]],
    }
    shown = show(picture(colour=(255, 0, 0)), straight=straight)
    assert shown.size == (100, 50)
    assert shown.getpixel((20, 25)) == (255, 0, 0, 255)
    assert shown.getpixel((80, 25))[3] == 0
