"""The pictures under the drawing: brought, kept beside the job by name, and shown."""

import hashlib
import json
from collections import OrderedDict
from pathlib import Path
from threading import Lock
from typing import Any
from urllib.parse import quote

from pydantic import BaseModel, ConfigDict, ValidationError

from kerfline.app.file_names import file_stem
from kerfline.app.tracing_shown import placed, shown_picture, straight_of
from kerfline.errors import InputRefused, Mistake
from kerfline.files.job_tracing import tracing_mistakes
from kerfline.files.largest import LARGEST_PLAN
from kerfline.files.tracing.ground import ENDINGS, look_at_ground
from kerfline.model.tracing import Tracing
from kerfline.units import Unit
from kerfline.web.actions import read_action
from kerfline.web.tracing_actions import TracingAction, on_tracing

Data = dict[str, Any]

KEPT_FILES = 4
"""Files that were brought and are kept in memory, so that undo finds them."""

KEPT_PICTURES = 3
"""Pictures that are kept ready to be shown."""

DIGEST_LETTERS = 8
PLACES = 4


class _Said(BaseModel):
    model_config = ConfigDict(extra="forbid", allow_inf_nan=False, str_max_length=300)

    tracing: Tracing | None


class Tracings:
    """The files that were brought, and their pictures as they were last shown; asked from several threads."""

    def __init__(self) -> None:
        self.files: OrderedDict[str, bytes] = OrderedDict()
        self.shown: OrderedDict[str, bytes] = OrderedDict()
        self.lock = Lock()

    def bring(self, data: bytes, name: str) -> Data:
        """Takes a file in under a name of its own, and says what it holds.

        Raises:
            InputRefused: It cannot be traced from.
        """
        ground = look_at_ground(data, name or "the picture")
        digest = hashlib.sha256(data).hexdigest()[:DIGEST_LETTERS]
        file = f"{file_stem(Path(name).stem or 'picture')}-{digest}.{ENDINGS[ground.kind]}"
        with self.lock:
            _keep(self.files, file, data, KEPT_FILES)
        return {"file": file, "pages": ground.pages, "size": ground.size}

    def look(self, file: str, page: int, folder: Path) -> Data:
        """What another page of a file holds."""
        ground = look_at_ground(self._bytes(file, folder), file, page)
        return {"file": file, "pages": ground.pages, "size": ground.size}

    def keep(self, tracing: Tracing | None, folder: Path) -> None:
        """Puts the file of a picture beside the job, where it is not there already.

        Raises:
            OutputRefused: It cannot be written.
        """
        from kerfline.files.atomic import write_all

        if tracing is None or (folder / tracing.file).exists():
            return
        with self.lock:
            data = self.files.get(tracing.file)
        if data is not None:
            write_all(folder, {tracing.file: data})

    def picture(self, said: str, folder: Path) -> bytes:
        """A picture ready to be shown.

        Args:
            said: The picture as ``tracing_data`` names it.
            folder: Where the job lies.

        Raises:
            InputRefused: Its file is not there, or cannot be traced from.
        """
        with self.lock:
            shown = self.shown.get(said)
        if shown is None:
            tracing = _named(said)
            shown = shown_picture(tracing, self._bytes(tracing.file, folder))
            with self.lock:
                _keep(self.shown, said, shown, KEPT_PICTURES)
        return shown

    def _bytes(self, file: str, folder: Path) -> bytes:
        """A file that was brought, else the one beside the job."""
        with self.lock:
            data = self.files.get(file)
        if data is not None:
            return data
        path = folder / file
        try:
            if path.is_file() and not path.is_symlink() and path.stat().st_size <= LARGEST_PLAN:
                return path.read_bytes()
        except OSError:
            pass
        raise InputRefused(
            Mistake(
                what="the picture is not beside the job any more",
                where=file,
                remedy="put it there again, or lay it anew",
            )
        )


def _keep(kept: OrderedDict[str, bytes], name: str, data: bytes, most: int) -> None:
    kept[name] = data
    kept.move_to_end(name)
    while len(kept) > most:
        kept.popitem(last=False)


def tracing_data(tracing: Tracing | None) -> Data | None:
    """A picture as the page draws it; y goes down, as on the screen."""
    place = placed(tracing) if tracing else None
    if tracing is None or place is None:
        return None
    left, bottom, right, top = place.box
    a, b, c, d, x, y = place.onto
    return {
        "file": tracing.file,
        "page": tracing.page,
        "fade": tracing.fade,
        "shown": tracing.shown,
        "locked": tracing.locked,
        "squared": straight_of(tracing) is not None,
        "source": f"tracing/picture?of={quote(_name_of(tracing), safe='')}",
        "box": [left, -top, right - left, top - bottom],
        "matrix": [a, -b, -c, d, x, -y],
    }


def _name_of(tracing: Tracing) -> str:
    """A picture by what it is drawn from: file and page, and its points where it has a perspective."""
    data: Data = {"file": tracing.file, "page": tracing.page, "size": tracing.size}
    if straight_of(tracing):
        x0, y0 = tracing.plan[0]
        data["picture"] = tracing.picture
        data["plan"] = [[round(x - x0, PLACES), round(y - y0, PLACES)] for x, y in tracing.plan]
    return json.dumps(data, separators=(",", ":"))


def _named(said: str) -> Tracing:
    """A picture by what ``_name_of`` wrote."""
    try:
        data = json.loads(said)
    except (ValueError, RecursionError):
        data = None
    if not isinstance(data, dict):
        raise InputRefused(Mistake(what="this names no picture"))
    width = data.get("size", [1.0, 1.0])[:1] or [1.0]
    plain = {"picture": [[0.0, 0.0], [width[0], 0.0]], "plan": [[0.0, 0.0], [1.0, 0.0]]}
    tracing = read_tracing(plain | data)
    if tracing is None:
        raise InputRefused(Mistake(what="this names no picture"))
    return tracing


def read_tracing(data: object) -> Tracing | None:
    """A picture that came from the page; None where there is none.

    Raises:
        InputRefused: It is not one.
    """
    try:
        tracing = _Said.model_validate({"tracing": data}).tracing
    except ValidationError:
        raise InputRefused(Mistake(what="this is no picture under a drawing")) from None
    if mistakes := tracing_mistakes(tracing, "tracing"):
        raise InputRefused(*mistakes)
    return tracing


def lay_on_empty(said: Data, units: Unit) -> Data:
    """Does one thing to the picture where there is no slab yet: the picture after it, and how it is drawn.

    Raises:
        InputRefused: It is nothing that can be done to a picture.
    """
    action = read_action(said.get("action"))
    if not isinstance(action, TracingAction):
        raise InputRefused(Mistake(what="there is no slab yet", remedy="begin one"))
    tracing = on_tracing(action, read_tracing(said.get("tracing")), units)
    return {
        "state": _Said(tracing=tracing).model_dump(mode="json")["tracing"],
        "shown": tracing_data(tracing),
    }
