"""Pictures and pages to trace from: told by content, shown upright and straight, refused within limits.

Most ask the reader in this process, which is quicker; that it runs in one of its own is tried with a few.
"""

import io
import itertools
import json
import struct
import time
import zlib

import pytest
from PIL import Image, ImageDraw, PngImagePlugin
from reportlab.lib.pdfencrypt import StandardEncryption
from reportlab.pdfgen import canvas

from kerfline.app.tracing import laid, squared
from kerfline.app.tracing_shown import shown_picture, straight_of
from kerfline.errors import InputRefused, Mistake
from kerfline.files.tracing import ground
from kerfline.files.tracing.ground import (
    kind_of_ground,
    look_at_ground,
    media_type,
    picture_of_ground,
)
from kerfline.files.tracing.opened import told
from photographs import FT, WALLS, as_bytes, photograph


def look(data, name="plan.xyz", page=0):
    """What a file holds, asked without a process of its own."""
    answer = json.loads(asked(data, name, do="look", page=page))
    return (answer["pages"], tuple(answer["size"]))


def show(data, name="plan.xyz", page=0):
    """The picture that is shown, likewise."""
    return asked(data, name, do="show", page=page)


def asked(data, name, **more):
    kind = kind_of_ground(data, name)
    answer = told({"kind": kind, "name": name, **more}, data)
    if answer.startswith(b'{"refused"'):
        raise InputRefused(*(Mistake(**each) for each in json.loads(answer)["refused"]))
    return answer


PATIENT = 20.0
"""Seconds in which the hostile is refused, on a machine that has other things to do."""


def plain(kind="PNG", size=(300, 200), mode="RGB", **more):
    return as_bytes(Image.new(mode, size, "white" if mode == "RGB" else 0), kind, **more)


def opened(shown):
    return Image.open(io.BytesIO(shown))


def pdf(pages=1, size=(720, 540), turn=0, locked=False):
    """A PDF whose pages each have a black square in their lower left corner."""
    out = io.BytesIO()
    guard = StandardEncryption("secret", ownerPassword="owner") if locked else None
    page = canvas.Canvas(out, pagesize=size, encrypt=guard)
    for number in range(pages):
        page.setPageRotation(turn)
        page.rect(0, 0, 90, 90, fill=1)
        page.drawString(300, 300, f"page {number + 1}")
        page.showPage()
    page.save()
    return out.getvalue()


@pytest.mark.parametrize("kind", ["PNG", "JPEG", "WebP"])
def test_a_picture_is_told_by_its_content(kind):
    found = look_at_ground(plain(kind), "plan.txt")
    assert (found.kind, found.pages, found.size) == (kind, 0, (300.0, 200.0))
    shown = picture_of_ground(plain(kind), "plan.txt", 0)
    assert media_type(shown) == "image/jpeg"
    assert opened(shown).size == (300, 200)


def test_a_page_is_seen_as_it_is_turned_and_cropped():
    assert look(pdf(pages=3, turn=90)) == (3, (720.0, 540.0))
    shown = opened(show(pdf(pages=3, turn=90), page=2))
    # Turned clockwise the lower left corner is the upper left one.
    assert shown.convert("L").getpixel((30, 30)) < 60
    assert shown.width / shown.height == pytest.approx(720 / 540, rel=1e-2)


def test_another_page_than_there_is():
    with pytest.raises(InputRefused, match="no such page"):
        look(pdf(pages=2), page=5)


def test_a_photograph_is_shown_as_the_telephone_was_held():
    """A picture on its side with the note that it is (Exif orientation 6: turn it clockwise)."""
    image = Image.new("RGB", (400, 200), "white")
    ImageDraw.Draw(image).rectangle((0, 0, 60, 60), fill="black")
    note = Image.Exif()
    note[0x0112] = 6
    data = as_bytes(image, "JPEG", exif=note)
    assert look(data) == (0, (200.0, 400.0))
    shown = opened(show(data))
    assert shown.size == (200, 400)
    assert shown.convert("L").getpixel((180, 20)) < 60 < shown.convert("L").getpixel((20, 20))


def test_what_a_telephone_notes_beside_the_picture_is_not_shown():
    note = Image.Exif()
    note.get_ifd(0x8825)[1] = "N"
    note[0x010E] = "behind the barn"
    shown = show(plain("JPEG", exif=note))
    assert b"behind the barn" not in shown
    assert not opened(shown).getexif()


def test_large_photographs_are_shown_smaller_and_in_shape():
    data = plain("JPEG", size=(8000, 6000))
    shown = opened(show(data))
    assert shown.width * shown.height <= 9_100_000
    assert shown.width / shown.height == pytest.approx(4 / 3, rel=1e-3)


@pytest.mark.parametrize("mode", ["1", "L", "LA", "P", "RGBA", "I;16", "CMYK"])
def test_pictures_of_every_depth(mode):
    kind = "JPEG" if mode == "CMYK" else "PNG"
    shown = show(plain(kind, mode=mode))
    assert opened(shown).size == (300, 200)


def test_sixteen_bits_of_grey_keep_their_greys():
    data = as_bytes(Image.new("I;16", (50, 50), 32768), "PNG")
    grey = opened(show(data)).convert("L").getpixel((25, 25))
    assert grey == pytest.approx(128, abs=3)


def test_a_photograph_from_aslant_is_drawn_as_seen_from_above():
    """Ink lies where the plan has it, and nowhere between, by the camera that took the picture."""
    data, camera = photograph()
    fresh = laid("a.jpg", 0, (2400.0, 1800.0), (0, 0, 40 * FT, 30 * FT))
    corners = [(0, 0), (40 * FT, 0), (40 * FT, 28 * FT), (0, 28 * FT)]
    taps = [fresh.onto.at(camera.sees(p)) for p in corners]
    tracing = squared(fresh, taps, (40 * FT, 28 * FT))
    straight, shown = straight_of(tracing), opened(shown_picture(tracing, data)).convert("RGBA")
    x0, _, _, y1 = straight.box

    def seen(x, y):
        return shown.getpixel(
            (round((x - x0) * straight.fineness), round((y1 - y) * straight.fineness))
        )

    on_ink = [
        ((1 - t) * a[0] + t * b[0], (1 - t) * a[1] + t * b[1])
        for a, b in WALLS
        for t in (0.2, 0.5, 0.8)
    ]
    assert all(sum(seen(*p)[:3]) < 300 for p in on_ink)
    beside = [(x + 300, y + 300) for x, y in on_ink]
    assert all(sum(seen(*p)[:3]) > 600 for p in beside)
    assert shown.getpixel((2, shown.height - 3))[3] == 0


HEADER = b"\x89PNG\r\n\x1a\n"


def chunk(name, data):
    return struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))


def png_that_says(width, height, rows=b""):
    head = chunk(b"IHDR", struct.pack(">IIBBBBB", width, height, 8, 0, 0, 0, 0))
    return HEADER + head + chunk(b"IDAT", zlib.compress(rows)) + chunk(b"IEND", b"")


def swelling_text():
    """A PNG whose note swells a thousandfold."""
    notes = PngImagePlugin.PngInfo()
    notes.add_text("note", "a" * 3_000_000, zip=True)
    return plain("PNG", pnginfo=notes)


HOSTILE = {
    "a picture that swells": (lambda: png_that_says(9_000, 9_000, bytes(81_009_000)), "too large"),
    "more pixels than any": (lambda: png_that_says(2**31 - 1, 2**31 - 1), "too large|damaged"),
    "a thread of pixels": (lambda: png_that_says(60_000, 1, bytes(60_001)), "too large"),
    "a picture without rows": (lambda: png_that_says(300, 200), "damaged or cut off"),
    "a cut off photograph": (lambda: photograph()[0][:60_000], "damaged or cut off"),
    "a cut off picture": (lambda: plain("PNG")[:60], "damaged or cut off"),
    "only its mark": (lambda: HEADER, "damaged or cut off"),
    "notes that swell": (swelling_text, "damaged or cut off|more time or memory"),
    "a locked PDF": (lambda: pdf(locked=True), "locked with a password"),
    "a cut off PDF": (lambda: pdf()[:200], "damaged or cut off"),
    "only the mark of a PDF": (lambda: b"%PDF-1.7\n", "damaged or cut off"),
    "a page beyond any paper": (lambda: pdf(size=(200_000, 400)), "beyond any paper"),
    "a telephone's own kind": (
        lambda: b"\x00\x00\x00\x18ftypheic" + bytes(40), "save it as JPEG",
    ),
    "a TIFF": (lambda: plain("TIFF"), "save it as one of these"),
    "a text": (lambda: b"hello", "cannot be traced from"),
    "nothing": (lambda: b"", "an empty file"),
}  # fmt: skip


@pytest.mark.parametrize("name", HOSTILE)
def test_the_hostile_is_refused_within_limits(name):
    make, words = HOSTILE[name]
    data = make()
    start = time.monotonic()
    with pytest.raises(InputRefused, match=words) as refused:
        look(data)
    assert time.monotonic() - start < PATIENT
    assert "plan.xyz" in str(refused.value)


def page_without_end():
    """A page that calls a form, which calls a form, each a hundred times."""
    forms = 6
    objects = {
        1: b"<< /Type /Catalog /Pages 2 0 R >>",
        2: b"<< /Type /Pages /Kids [3 0 R] /Count 1 >>",
        3: b"<< /Type /Page /Parent 2 0 R /MediaBox [0 0 300 300] /Contents 4 0 R /Resources << /XObject << /F 5 0 R >> >> >>",
        4: (b"<< /Length 6 >>", b"/F Do\n"),
    }
    for level in range(forms):
        body = b"0 0 m 300 300 l S\n" * 20 if level == forms - 1 else b"/F Do\n" * 100
        inner = (
            b""
            if level == forms - 1
            else b"/Resources << /XObject << /F %d 0 R >> >>" % (6 + level)
        )
        objects[5 + level] = (
            b"<< /Type /XObject /Subtype /Form /BBox [0 0 300 300] %s /Length %d >>" % (inner, len(body)), body,
        )  # fmt: skip
    out, places = b"%PDF-1.7\n", {}
    for number, body in objects.items():
        places[number] = len(out)
        head, stream = body if isinstance(body, tuple) else (body, None)
        rest = b"" if stream is None else b"\nstream\n" + stream + b"endstream"
        out += b"%d 0 obj\n%s%s\nendobj\n" % (number, head, rest)
    table = b"".join(b"%010d 00000 n \n" % places[n] for n in objects)
    size = len(objects) + 1
    return out + b"xref\n0 %d\n0000000000 65535 f \n%strailer\n<< /Size %d /Root 1 0 R >>\nstartxref\n%d\n%%%%EOF" % (
        size, table, size, len(out),
    )  # fmt: skip


def test_a_page_that_draws_without_end_is_given_up(monkeypatch):
    monkeypatch.setattr(ground, "LONGEST", 3.0)
    with pytest.raises(InputRefused, match="more time or memory"):
        look_at_ground(page_without_end(), "plan.pdf")


def test_changed_bytes_are_refused_or_shown_but_never_more():
    good = photograph()[0]
    for place in itertools.chain(range(2, 200, 66), range(700, len(good), len(good) // 3)):
        data = good[:place] + bytes([good[place] ^ 0x5A]) + good[place + 1 :]
        try:
            shown = show(data)
        except InputRefused:
            continue
        assert shown[:2] == b"\xff\xd8"
