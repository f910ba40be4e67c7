"""The demonstration: the sheets that are committed are those that the code draws."""

import json
import re
from pathlib import Path

import pytest

import kerfline
from kerfline.app.demo import demo, demo_contents
from kerfline.model.finding import Severity

ROOT = Path(__file__).parents[1]
OUT = ROOT / "out" / "community-workshop"
PACKAGED = ROOT / "src" / "kerfline" / "app" / "demo_data"


@pytest.fixture(scope="module")
def files() -> dict[str, bytes]:
    return demo_contents(demo())


def numbers(text: str) -> list[float]:
    return [float(n) for n in re.findall(r"-?\d+\.?\d*", text)]


def test_the_fixture_and_the_packaged_demo_are_the_same_job() -> None:
    for path in sorted(PACKAGED.iterdir()):
        assert (
            ROOT / "fixtures" / "community-workshop" / path.name
        ).read_bytes() == path.read_bytes()


def test_the_workshop_is_laid_out_without_an_error() -> None:
    outcome = demo().outcome
    assert outcome.count(Severity.ERROR) == 0
    assert len(outcome.job.slab.walls) >= 8
    assert len(outcome.job.slab.columns) == 4


def test_committed_layout_is_in_step(files: dict[str, bytes]) -> None:
    name = "community-workshop-layout.json"
    kept, made = json.loads((OUT / name).read_text()), json.loads(files[name])
    assert [j["path"] for j in kept["joints"]] == [
        [pytest.approx(p, abs=0.01) for p in j["path"]] for j in made["joints"]
    ]
    assert [(p["id"], p["status"]) for p in kept["panels"]] == [
        (p["id"], p["status"]) for p in made["panels"]
    ]
    assert kept["findings"] == [
        {k: pytest.approx(v, abs=0.01) if k == "at" else v for k, v in f.items()}
        for f in made["findings"]
    ]
    for part in ("totals", "solution"):
        assert {k: v if isinstance(v, float) else [v] for k, v in kept[part].items()} == {
            k: pytest.approx(v, abs=0.01) if isinstance(v, float) else [v]
            for k, v in made[part].items()
        }


@pytest.mark.parametrize(
    "name", sorted(p.name for p in OUT.glob("*.svg")) or pytest.param("missing", id="no sheet")
)
def test_committed_sheet_is_in_step(files: dict[str, bytes], name: str) -> None:
    """Same words in the same order, and every number within a hundredth of a millimetre."""
    kept, made = (OUT / name).read_text(), files[name].decode()
    assert re.sub(r"-?\d+\.?\d*", "#", kept) == re.sub(r"-?\d+\.?\d*", "#", made)
    assert numbers(kept) == pytest.approx(numbers(made), abs=0.011)


def test_the_readmes_picture_of_the_drawing_is_in_step() -> None:
    name = "community-workshop-reading.svg"
    kept = (ROOT / "out" / "from-a-drawing" / name).read_text()
    drawing = ROOT / "fixtures" / "community-workshop" / "community-workshop.dxf"
    made = kerfline.lay_out(drawing, thickness="5 in").files()[name].decode()
    assert re.sub(r"-?\d+\.?\d*", "#", kept) == re.sub(r"-?\d+\.?\d*", "#", made)
    assert numbers(kept) == pytest.approx(numbers(made), abs=0.011)


def test_every_drawn_sheet_is_committed(files: dict[str, bytes]) -> None:
    drawn = {name for name in files if name.endswith(".svg")}
    assert drawn == {p.name for p in OUT.glob("*.svg")}
