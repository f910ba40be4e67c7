"""Opens a picture or a page of a PDF in a process of its own, and draws it as it is shown.

A picture can be made to swell a thousandfold when it is opened, and a page to keep its reader busy for
ever; so sizes are held before anything is decoded, and whoever starts this bounds its time and memory.
"""

import io
import json
import sys
import warnings
from dataclasses import asdict
from typing import Any

from PIL import Image, ImageChops, ImageDraw, ImageOps, UnidentifiedImageError

from kerfline.errors import InputRefused, Mistake
from kerfline.files.apart import bound
from kerfline.files.plan_pdf.pdf_file import document_of, index_of
from kerfline.geometry.homography import Homography, Row

MOST_PIXELS = 80_000_000
"""Pixels of the largest picture that is opened; telephones take 12 to 50 million."""

LONGEST_SIDE = 30_000
SHOWN_PIXELS = 9_000_000
"""Pixels that are shown at most: a page at 150 to the inch has two, a photograph is made this small."""

GLANCE = 10_000
"""Pixels that are enough to see that a file is whole."""

PAGE_FINENESS = 3.0
"""Pixels for each 1/72 in of a page: 216 to the inch, where that is not too many."""

LARGEST_PAGE = 15_000
"""The longest side of a page, in 1/72 in (ISO 32000-1, annex C, table C.1: 14,400)."""

QUALITY = 88
QUICK = 1
"""How hard a PNG is packed: it goes to a page on the same machine."""

CLEAR = (0, 0, 0, 0)
NAMES = {"PNG": "PNG", "JPEG": "JPEG", "WebP": "WEBP"}
"""What the library calls the kinds of picture."""

AWAY = "save a copy of it, or take the picture again"


class _Opened:
    """A file: how many pages, how large it is seen, and its picture."""

    def __init__(self, asked: dict[str, Any], data: bytes) -> None:
        self.name, self.kind = str(asked["name"]), str(asked["kind"])
        self.data = data
        self.page: Any = None
        self.pages = 0
        if self.kind == "PDF":
            document = document_of(self.name, data)
            self.pages = len(document)
            self.page = document[index_of(self.name, self.pages, max(int(asked["page"]), 1))]
            width, height = self.page.get_size()
            if not (0 < width <= LARGEST_PAGE and 0 < height <= LARGEST_PAGE):
                raise self.refused("this page has no size, or one beyond any paper")
            self.size = (float(width), float(height))
            return
        with warnings.catch_warnings():
            # The library warns of what it thinks too large; what is too large here is refused below.
            warnings.simplefilter("ignore", Image.DecompressionBombWarning)
            self.image = Image.open(io.BytesIO(data), formats=[NAMES[self.kind]])
        width, height = self.image.size
        if width * height > MOST_PIXELS or max(width, height) > LONGEST_SIDE:
            raise self.refused(
                "this picture is too large",
                found=f"{width:,} x {height:,} pixels",
                allowed=f"up to {MOST_PIXELS // 1_000_000} million, {LONGEST_SIDE:,} on a side",
                remedy="save it smaller",
            )
        aslant = self.image.getexif().get(_ORIENTATION, 1) in _ON_ITS_SIDE
        self.size = (float(height), float(width)) if aslant else (float(width), float(height))

    def refused(
        self, what: str, *, found: str = "", allowed: str = "", remedy: str = AWAY
    ) -> InputRefused:
        return InputRefused(
            Mistake(what=what, where=self.name, found=found, allowed=allowed, remedy=remedy)
        )

    def picture(self, most: int) -> Image.Image:
        """Its picture, upright, of about so many pixels at most."""
        if self.page is not None:
            width, height = self.size
            scale = min(PAGE_FINENESS, (most / (width * height)) ** 0.5)
            drawn: Image.Image = self.page.render(scale=scale).to_pil()
            return drawn.convert("RGB")
        image = self.image
        share = (image.width * image.height / most) ** 0.5
        if share > 1:
            # A JPEG is opened at a half, a quarter or an eighth, which costs a fraction of the whole.
            image.draft("RGB", _smaller(image.size, share))
        image.load()
        upright = ImageOps.exif_transpose(_plain(image))
        share = (upright.width * upright.height / most) ** 0.5
        if share <= 1:
            return upright
        return upright.resize(_smaller(upright.size, share), Image.Resampling.BOX)


def _smaller(size: tuple[int, int], share: float) -> tuple[int, int]:
    return (max(int(size[0] / share), 1), max(int(size[1] / share), 1))


_ORIENTATION = 0x0112
"""The tag that says how a picture was held (CIPA DC-008, Exif 2.32, 4.6.4 A)."""
_ON_ITS_SIDE = (5, 6, 7, 8)


def _plain(image: Image.Image) -> Image.Image:
    """A picture in red, green and blue, with what shines through where it has such."""
    if image.mode.startswith("I") or image.mode == "F":
        lightest = 65535 if image.mode != "F" else 1
        return image.convert("F").point(lambda v: v * (255 / lightest)).convert("L").convert("RGB")
    through = image.mode in ("RGBA", "LA", "PA") or "transparency" in image.info
    return image.convert("RGBA" if through else "RGB")


def _shown(opened: _Opened, asked: dict[str, Any]) -> bytes:
    image = opened.picture(SHOWN_PIXELS)
    if "straight" in asked:
        image = _straightened(image, opened.size, asked["straight"])
    out = io.BytesIO()
    if image.mode == "RGBA" or opened.kind == "PDF":
        image.save(out, "PNG", compress_level=QUICK)
    else:
        image.save(out, "JPEG", quality=QUALITY)
    return out.getvalue()


def _straightened(
    image: Image.Image, size: tuple[float, float], straight: dict[str, Any]
) -> Image.Image:
    """The picture as it is seen from straight above, clear where it shows nothing."""
    x0, y0, x1, y1 = straight["box"]
    fine = straight["fineness"]
    width, height = max(round((x1 - x0) * fine), 1), max(round((y1 - y0) * fine), 1)
    first, second, third = (_row(r) for r in straight["back"]["rows"])
    from_pixels = Homography(((1 / fine, 0.0, x0), (0.0, -1 / fine, y1), (0.0, 0.0, 1.0)))
    into_pixels = Homography(
        ((image.width / size[0], 0.0, 0.0), (0.0, image.height / size[1], 0.0), (0.0, 0.0, 1.0))
    )
    whole = into_pixels.after(Homography((first, second, third)).after(from_pixels)).rows
    last = whole[2][2]
    drawn = image.convert("RGBA").transform(
        (width, height),
        Image.Transform.PERSPECTIVE,
        [v / last for row in whole for v in row][:8],
        Image.Resampling.BICUBIC,
        fillcolor=CLEAR,
    )
    mask = Image.new("L", (width, height), 0)
    corners = [((x - x0) * fine, (y1 - y) * fine) for x, y in straight["within"]]
    ImageDraw.Draw(mask).polygon(corners, fill=255)
    drawn.putalpha(ImageChops.multiply(drawn.getchannel("A"), mask))
    return drawn


def _row(values: list[float]) -> Row:
    return (float(values[0]), float(values[1]), float(values[2]))


def told(asked: dict[str, Any], data: bytes) -> bytes:
    """The answer to what is asked of a file: what it is, or its picture; or why it is refused."""
    import pypdfium2

    damaged = Mistake(what="this picture is damaged or cut off", where=asked["name"], remedy=AWAY)
    try:
        opened = _Opened(asked, data)
        if asked["do"] == "look":
            opened.picture(GLANCE)
            return json.dumps({"pages": opened.pages, "size": opened.size}).encode()
        return _shown(opened, asked)
    except InputRefused as refused:
        mistakes = refused.mistakes
    except (
        OSError, ValueError, SyntaxError, EOFError, Image.DecompressionBombError,
        UnidentifiedImageError, pypdfium2.PdfiumError,
    ):  # fmt: skip
        mistakes = (damaged,)
    return json.dumps({"refused": [asdict(mistake) for mistake in mistakes]}).encode()


def main() -> None:
    """Answers what the command line asks of the file that comes in."""
    bound()
    sys.stdout.buffer.write(told(json.loads(sys.argv[1]), sys.stdin.buffer.read()))


if __name__ == "__main__":
    main()
