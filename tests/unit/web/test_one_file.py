"""The page as one file: all in it, nothing from elsewhere, and no text of a drawing becomes markup."""

import base64
import hashlib
import html.parser
import json
import re
import shutil
import subprocess
from pathlib import Path

import pypdfium2
import pytest

from kerfline.app.cut_files import cut_files
from kerfline.app.day_job import plan_beside
from kerfline.app.live import kept_outcome, outcome_of
from kerfline.app.open_job import open_job
from kerfline.web.desk import Desk
from kerfline.web.one_file import bundle, page_bytes, policy
from paged import HOUSE, client, house

HOSTILE = "</script><script>alert(1)</script><img src=x onerror=alert(2)> & \u2028 '\\\""


class Markup(html.parser.HTMLParser):
    """Collects the tags and texts of a page as a browser's parser would see them."""

    def __init__(self, text):
        super().__init__()
        self.tags, self.texts, self.inside = [], {}, None
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        self.inside = (tag, dict(attrs).get("type"))
        self.tags.append((tag, dict(attrs)))

    def handle_endtag(self, tag):
        self.inside = None

    def handle_data(self, data):
        self.texts[self.inside] = self.texts.get(self.inside, "") + data


def page(tmp_path, text=HOUSE):
    return page_bytes(kept_outcome(open_job(house(tmp_path, text))))


def test_the_page_needs_nothing_else(tmp_path):
    text = page(tmp_path).decode()
    found = Markup(text)

    assert not [a for _, a in found.tags if "src" in a]
    assert not [a for tag, a in found.tags if tag == "link"]
    assert "http://www.w3.org/2000/svg" in text
    assert "//" not in re.sub(r"http://www\.w3\.org/2000/svg|//\s.*$", "", text, flags=re.MULTILINE)


def test_the_policy_allows_exactly_the_scripts_and_styles_inside(tmp_path):
    found = Markup(page(tmp_path).decode())
    (meta,) = [a["content"] for _, a in found.tags if a.get("http-equiv")]

    def digest(text):
        return base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()

    assert f"script-src 'sha256-{digest(found.texts['script', 'module'])}'" in meta
    assert f"style-src 'sha256-{digest(found.texts['style', None])}'" in meta
    assert meta == policy(found.texts["script", "module"], found.texts["style", None])
    assert meta.startswith("default-src 'none'")


def test_the_data_are_those_of_the_layout(tmp_path):
    found = Markup(page(tmp_path).decode())
    data = json.loads(found.texts["script", "application/json"])

    assert data["job"] == "Boathouse"
    assert [c["joint"] for s in data["sections"] for c in s["cuts"]] == ["J1", "J3", "J2"]
    assert [p["length"] for p in data["panels"]] == ["10'-0\""] * 6


def test_its_numbers_are_those_of_the_cut_sheets(tmp_path):
    """Row by row as the printed table of each placement's sheet has them, and in its order."""
    job = (
        Path(__file__).parents[3]
        / "src"
        / "kerfline"
        / "app"
        / "demo_data"
        / "community-workshop.toml"
    )
    outcome = outcome_of(open_job(job))
    plan = plan_beside(outcome, job)
    data = json.loads(
        Markup(page_bytes(outcome, plan).decode()).texts["script", "application/json"]
    )
    files = cut_files(outcome, plan)
    assert len(data["sections"]) == 3
    for number, section in enumerate(data["sections"], 1):
        name = f"community-workshop-cut-sheet-placement-{number}.pdf"
        document = pypdfium2.PdfDocument(files[name])
        text = " ".join(sheet.get_textpage().get_text_range() for sheet in document).split()
        words = " ".join(text)
        for cut in section["cuts"]:
            row = " ".join(
                cut[k] for k in ("number", "joint", "at", "start", "end", "length", "depth", "slab")
            )
            assert row in words


def test_a_house_stays_small(tmp_path):
    """Under 300 KB, so that it goes into any message."""
    assert len(page(tmp_path)) < 300_000


@pytest.mark.parametrize("place", ["Boathouse", "under wall W1"])
def test_a_hostile_text_stays_text(tmp_path, place):
    text = HOUSE.replace(json.dumps(place), json.dumps(HOSTILE, ensure_ascii=False))
    plain, hostile = Markup(page(tmp_path).decode()), Markup(page(tmp_path, text).decode())

    assert [tag for tag, _ in hostile.tags] == [tag for tag, _ in plain.tags]
    data = json.loads(hostile.texts["script", "application/json"])
    assert HOSTILE in (data["job"], data["joints"][0]["note"])


def test_the_same_layout_gives_the_same_bytes(tmp_path):
    assert page(tmp_path) == page(tmp_path)


def test_another_layout_has_other_ticks(tmp_path):
    def key(text):
        return json.loads(
            Markup(page(tmp_path, text).decode()).texts["script", "application/json"]
        )["key"]

    assert key(HOUSE) != key(HOUSE.replace("[20, 0], [20, 20]", "[19, 0], [19, 20]"))


def test_the_bundle_holds_each_script_once_and_no_import():
    text = bundle("crew.js")

    assert not re.findall(r"^(import|export) ", text, re.MULTILINE)
    names = re.findall(r"^const (\$\w+) = \(\(\) =>", text, re.MULTILINE)
    assert len(names) == len(set(names))


@pytest.mark.skipif(not shutil.which("node"), reason="node is not installed")
def test_the_bundle_is_one_well_formed_module(tmp_path):
    path = tmp_path / "bundle.mjs"
    path.write_text(bundle("crew.js"))

    subprocess.run(["node", "--check", str(path)], check=True)


def test_a_name_in_another_script_reaches_the_browser(tmp_path):
    """A header holds Latin letters only, so the name goes encoded (RFC 6266 with RFC 8187)."""
    desk = Desk(house(tmp_path, HOUSE.replace('"Boathouse"', '"艇庫"')))
    state = desk.open({})["state"]
    answer = client(desk).post("one-file", json={"state": state})
    assert answer.status_code == 200
    assert answer.headers["content-disposition"] == (
        "attachment; filename*=UTF-8''%E8%89%87%E5%BA%AB-page.html"
    )
