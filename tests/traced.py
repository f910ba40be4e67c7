"""A picture under the drawing of the page, brought and laid."""

from PIL import Image

from paged import FT, client
from photographs import as_bytes


def picture(size=(300, 200), colour="white"):
    return as_bytes(Image.new("RGB", size, colour), "PNG")


def brought(page, name="IMG 2041.PNG", data=None):
    return page.post(f"tracing/bring?name={name}", content=data or picture()).json()


def lay(seen, **more):
    return {
        "do": "lay-tracing", "file": seen["file"], "page": 0, "size": seen["size"], "view": [0, 0, 30 * FT, 20 * FT], **more,
    }  # fmt: skip


def traced(desk, *actions):
    """The state and the picture after a picture was brought and laid, and more was done to it."""
    seen = brought(client(desk))
    answer = desk.open({})
    for action in (lay(seen), *actions):
        answer = desk.looks.change({"state": answer["state"], "action": action})
    return answer
