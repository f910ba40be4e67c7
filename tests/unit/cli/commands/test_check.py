"""``kerfline check`` as a plan checker runs it: each planted fault, each option, exit status and files."""

import csv
import io
import json
import math
from pathlib import Path

import ezdxf
import pytest
from click.testing import Result

from commands import run
from kerfline.errors import InputRefused, KerflineError

WIDE, DEEP, BAY = 40.0, 30.0, 10.0
EDGE, SAWN, CONSTRUCTION = "S-SLAB-EDGE", "S-JNTS-CTLJ", "S-JNTS-CNTJ"
FEET = 2
"""Code of feet in a drawing's header."""

COLUMNS = 100
CLEAN, ERRORS = 0, 1


def grid(without=(), layer=SAWN):
    """The joints of a clean floor by name, each a layer and the points of a line, in feet."""
    upright = {f"V{i}": (layer, (BAY * i, 0.0), (BAY * i, DEEP)) for i in (1, 2, 3)}
    level = {f"H{i}": (layer, (0.0, BAY * i), (WIDE, BAY * i)) for i in (1, 2)}
    return {name: line for name, line in {**upright, **level}.items() if name not in without}


def drawing(path: Path, joints, outline=None, draw=None) -> Path:
    """A floor drawn in feet by a library that is not ours."""
    document = ezdxf.new("R2010", units=FEET)
    space = document.modelspace()
    space.add_lwpolyline(
        outline or [(0, 0), (WIDE, 0), (WIDE, DEEP), (0, DEEP)],
        close=True,
        dxfattribs={"layer": EDGE},
    )
    for layer, *points in joints.values():
        space.add_lwpolyline(points, dxfattribs={"layer": layer})
    if draw:
        draw(space)
    document.saveas(path)
    return path


def check(source: Path, *words: object, thickness: str = "4 in") -> Result:
    """Checks a drawing in feet and writes beside it."""
    given = ("--units", "ft", "--thickness", thickness) if source.suffix == ".dxf" else ()
    return run("check", source, *given, "--out", source.parent / "o", *words)


def refusal(result: Result) -> str:
    assert isinstance(result.exception, KerflineError), result.output
    return str(result.exception)


def record(source: Path, number: int = 0):
    """What the record says under one rule set."""
    data = json.loads((source.parent / "o" / f"{source.stem}-check.json").read_text())
    return data["sets"][number]


def broken(source: Path) -> set[str]:
    """The rules that have findings beyond advice."""
    return {f["rule"] for f in record(source)["findings"] if f["severity"] != "advice"}


def test_a_clean_floor_has_no_finding_but_that_no_depth_is_noted(tmp_path: Path) -> None:
    source = drawing(tmp_path / "floor.dxf", grid())
    result = check(source)
    assert result.exit_code == CLEAN, result.output
    assert "no rule is broken" in result.output
    assert [f["rule"] for f in record(source)["findings"]] == ["depth"]


def _line(*points, layer=SAWN):
    return (layer, *points)


FAULTS = {
    "a joint left out": (grid({"V2"}), {"span", "aspect"}),
    "a joint that stops": ({**grid({"V2"}), "S": _line((20, 0), (20, 14))}, {"free-end"}),
    "a sliver": ({**grid(), "S": _line((1, 0), (1, DEEP))}, {"width", "aspect"}),
    "a slant": ({**grid({"V2"}), "S": _line((12, 0), (28, DEEP))}, {"angle"}),
    "a curl": ({**grid(), "S": _line((13, 0), (13, 5), (17, 5), (17, 0))}, {"shape"}),
    "a tee": ({**grid({"V2"}), "S": _line((20, 0), (20, 20))}, {"span"}),
}


@pytest.mark.parametrize("fault", FAULTS)
def test_a_planted_fault_is_found_by_its_rule(tmp_path: Path, fault: str) -> None:
    joints, rules = FAULTS[fault]
    source = drawing(tmp_path / "floor.dxf", joints)
    result = check(source)
    assert rules <= broken(source), result.output
    errors = any(f["severity"] == "error" for f in record(source)["findings"])
    assert result.exit_code == (ERRORS if errors else CLEAN)


def test_a_bare_re_entrant_corner_is_found(tmp_path: Path) -> None:
    outline = [(0, 0), (20, 0), (20, 10), (14, 10), (14, 20), (0, 20)]
    source = drawing(tmp_path / "ell.dxf", {"V": _line((8, 0), (8, 20))}, outline)
    check(source)
    assert "corner" in broken(source)


def test_every_line_of_the_report_fits_a_hundred_columns(tmp_path: Path) -> None:
    joints = {f"H{i}": _line((0, 13 * i), (156, 13 * i)) for i in range(1, 3)}
    joints |= {f"V{i}": _line((13 * i, 0), (13 * i, 39)) for i in range(1, 12)}
    outline = [(0, 0), (156, 0), (156, 39), (0, 39)]
    source = drawing(tmp_path / "hall.dxf", joints, outline)
    result = check(source, "--rules", "floor", "--rules", "parking", "--rules", "residential")
    assert result.exit_code == ERRORS
    lines = result.output.splitlines()
    listed = lines[: lines.index(next(line for line in lines if line.startswith("files ")))]
    assert max(map(len, listed)) <= COLUMNS
    assert "and 26 more: see hall-check.csv" in result.output
    table = list(csv.reader(io.StringIO((tmp_path / "o" / "hall-check.csv").read_text())))
    assert len([row for row in table if row[1] == "span"]) == 36


def test_errors_come_first_in_the_report(tmp_path: Path) -> None:
    """Of a depth that is not noted (advice) and a span that is too long (error), the span."""
    result = check(drawing(tmp_path / "floor.dxf", grid({"V2"})))
    assert result.output.index("\nspan (") < result.output.index("\ndepth (")
    rows = [line.split()[0] for line in result.output.splitlines() if "  NO  " in line]
    assert rows == ["span", "aspect"]


def test_rule_sets_stand_side_by_side_and_the_first_decides(tmp_path: Path) -> None:
    """10 ft bays of a 4 in floor: within 30 t and 36 t, beyond 24 t (8 ft) of the strictest."""
    source = drawing(tmp_path / "floor.dxf", grid({"V2"}))
    both = check(source, "--rules", "floor", "--rules", "high-shrinkage")
    head = next(line for line in both.output.splitlines() if line.startswith("rule  "))
    assert head.split() == ["rule", "worst", "floor", "high-shrinkage"]
    assert [record(source, i)["rule_set"] for i in (0, 1)] == ["floor", "high-shrinkage"]
    clean = drawing(tmp_path / "clean.dxf", grid())
    assert check(clean, "--rules", "floor", "--rules", "high-shrinkage").exit_code == CLEAN
    assert check(clean, "--rules", "high-shrinkage", "--rules", "floor").exit_code == ERRORS


def test_a_rule_set_that_there_is_not_is_refused(tmp_path: Path) -> None:
    source = drawing(tmp_path / "floor.dxf", grid())
    for words in (("--rules", "none-such"), ("--rules", "floor", "--rules", "none-such")):
        assert "none-such" in refusal(check(source, *words))
    assert not (tmp_path / "o").exists()


def test_a_job_file_is_checked_like_a_drawing(tmp_path: Path) -> None:
    drawn = drawing(tmp_path / "floor.dxf", grid({"V2"}))
    job = tmp_path / "job.toml"
    job.write_text(
        '[job]\nname = "job"\nunits = "ft"\n[slab]\nthickness = "4 in"\n[drawing]\nfile = "floor.dxf"\n'
        'outline = ["S-SLAB-EDGE"]\njoints = ["S-JNTS*"]\n'
    )
    assert check(drawn).exit_code == check(job).exit_code == ERRORS
    assert record(drawn)["findings"] == record(job)["findings"]
    assert record(drawn)["verdicts"] == record(job)["verdicts"]


@pytest.mark.parametrize(
    ("depth", "status", "ruling"),
    [("1 in", CLEAN, "complies"), ("0.7 in", ERRORS, "does not comply")],
)
def test_a_depth_on_the_command_line_is_held_against_the_rule(
    tmp_path: Path, depth: str, status: int, ruling: str
) -> None:
    source = drawing(tmp_path / "floor.dxf", grid())
    assert check(source, "--depth", depth).exit_code == status
    verdict = next(v for v in record(source)["verdicts"] if v["rule"] == "depth")
    assert verdict["ruling"] == ruling


def test_a_depth_noted_on_the_drawing_is_held_against_the_rule(tmp_path: Path) -> None:
    """A 3/4 in cut in a 4 in floor: a quarter of it is 1 in (ACI 302.1R)."""

    def note(space):
        space.add_text('SAWCUT 3/4" DEEP, TYP.', dxfattribs={"layer": "NOTES"}).set_placement(
            (0, -6)
        )

    source = drawing(tmp_path / "floor.dxf", grid(), draw=note)
    result = check(source)
    assert result.exit_code == ERRORS
    assert "depth" in broken(source)
    assert 'Depth of cut 3/4", noted on the drawing' in " ".join(result.output.split())


@pytest.mark.parametrize("depth", ["0 in", "-1 in", "4 in", "deep"])
def test_a_depth_that_is_none_is_refused(tmp_path: Path, depth: str) -> None:
    source = drawing(tmp_path / "floor.dxf", grid())
    assert "--depth" in refusal(check(source, f"--depth={depth}"))
    assert not (tmp_path / "o").exists()


SHORT = {**grid({"V2"}), "S": _line((20, 0), (20, 29.6))}
"""A joint that stops 0.4 ft, nearly 5 in, short of the edge."""


def test_a_joint_that_stops_short_is_repaired_as_far_as_is_said(tmp_path: Path) -> None:
    source = drawing(tmp_path / "floor.dxf", SHORT)
    assert check(source).exit_code == ERRORS
    assert "free-end" in broken(source)
    repaired = check(source, "--repair", "6 in")
    assert repaired.exit_code == CLEAN, repaired.output
    assert "G2 stopped short: carried on" in repaired.output


def test_a_job_file_says_itself_how_far_joints_are_repaired(tmp_path: Path) -> None:
    drawing(tmp_path / "floor.dxf", SHORT)
    job = tmp_path / "job.toml"
    text = (
        '[job]\nname = "job"\nunits = "ft"\n[slab]\nthickness = "4 in"\n[drawing]\nfile = "floor.dxf"\n'
        'outline = ["S-SLAB-EDGE"]\njoints = ["S-JNTS*"]\n'
    )
    job.write_text(text)
    assert check(job).exit_code == ERRORS
    assert "repair" in refusal(check(job, "--repair", "6 in"))
    job.write_text(text + 'repair = "6 in"\n')
    assert check(job).exit_code == CLEAN


@pytest.mark.parametrize("repair", ["-1 in", "3 ft", "a bit"])
def test_a_repair_that_is_none_is_refused(tmp_path: Path, repair: str) -> None:
    source = drawing(tmp_path / "floor.dxf", grid())
    assert "--repair" in refusal(check(source, f"--repair={repair}"))


def test_what_cj_means_is_asked_and_not_guessed(tmp_path: Path) -> None:
    source = drawing(tmp_path / "floor.dxf", {**grid({"V1"}), "CJ": grid(layer="S-CJ")["V1"]})
    words = refusal(check(source))
    assert "S-CJ" in words
    assert '--joints "LAYER = control"' in words
    assert SAWN in words
    assert not (tmp_path / "o").exists()
    answered = check(source, "--joints", "S-CJ = control", "--joints", SAWN)
    assert answered.exit_code == CLEAN, answered.output


def test_the_report_says_what_was_taken_from_the_drawing_and_what_was_not(tmp_path: Path) -> None:
    def more(space):
        space.add_line((0, 10), (12, 10), dxfattribs={"layer": "A-WALL"})
        space.add_line((60, 0), (60, 9), dxfattribs={"layer": "SCRIBBLE"})
        space.add_text("A FLOOR", dxfattribs={"layer": "NOTES"}).set_placement((0, -5))

    source = drawing(tmp_path / "floor.dxf", grid(), draw=more)
    result = check(source)
    said = " ".join(result.output.split())
    assert "Slab: 40'-0\" x 30'-0\" (12.19 x 9.14 m), 1,200.0 ft2" in said
    assert "edge: layer S-SLAB-EDGE, by its name." in said
    assert "Unit: feet, as you say." in said
    assert "Walls: 1 interior wall, 12 ft on A-WALL." in said
    assert " joints on S-JNTS-CTLJ." in said
    assert "Not used, as nothing says that they hold a part of the slab: NOTES, SCRIBBLE" in said
    assert "1 TEXT" in said
    told = " ".join(check(source, "--joints", SAWN).output.split())
    assert "on S-JNTS-CTLJ, as you say." in told


def test_a_drawing_without_joints_is_refused_with_what_to_do(tmp_path: Path) -> None:
    source = drawing(tmp_path / "floor.dxf", {})
    assert "--joints" in refusal(check(source))
    assert not (tmp_path / "o").exists()


def plan_of(tmp_path: Path) -> Path:
    """The floor's own layout, as a file that ``kerfline layout`` wrote."""
    source = drawing(tmp_path / "plan.dxf", {})
    words = ("--units", "ft", "--thickness", "4 in", "--out", tmp_path / "plan")
    assert run("layout", source, *words).exit_code == CLEAN
    return tmp_path / "plan" / "plan-layout.json"


def survey(tmp_path: Path, plan: Path, off: float = 0.0, without: int = -1) -> Path:
    """The planned joints as cut: one of them ``off`` by feet sideways, one not cut."""
    joints = {}
    for i, joint in enumerate(json.loads(plan.read_text())["joints"]):
        (x0, y0), (x1, y1) = [(x / 304.8, y / 304.8) for x, y in joint["path"]]
        size = math.dist((x0, y0), (x1, y1))
        dx, dy = (off * (y0 - y1) / size, off * (x1 - x0) / size) if i == 0 else (0.0, 0.0)
        if i != without:
            joints[joint["id"]] = _line((x0 + dx, y0 + dy), (x1 + dx, y1 + dy))
    return drawing(tmp_path / "survey.dxf", joints)


def test_a_survey_that_follows_its_plan_is_clean(tmp_path: Path) -> None:
    plan = plan_of(tmp_path)
    result = check(survey(tmp_path, plan), "--plan", plan)
    assert result.exit_code == CLEAN, result.output


def test_a_cut_beside_its_plan_is_found_beyond_three_quarters_of_an_inch(tmp_path: Path) -> None:
    """3/4 in (19 mm): sideways tolerance of sawcuts, ACI 117 table as reproduced in UFGS 03700."""
    plan = plan_of(tmp_path)
    for off, told in ((0.5 / 12, False), (1.0 / 12, True)):
        result = check(survey(tmp_path, plan, off=off), "--plan", plan)
        assert ("off its planned place" in result.output) is told, result.output
        assert result.exit_code == CLEAN


def test_a_joint_that_was_planned_and_not_cut_is_an_error(tmp_path: Path) -> None:
    plan = plan_of(tmp_path)
    source = survey(tmp_path, plan, without=0)
    result = check(source, "--plan", plan)
    assert result.exit_code == ERRORS
    assert "is not cut" in " ".join(result.output.split())
    edge = next(v for v in record(source)["verdicts"] if v["rule"] == "edge")
    assert edge["ruling"] == "does not comply"


def test_a_plan_may_be_a_drawing(tmp_path: Path) -> None:
    plan = drawing(tmp_path / "design.dxf", grid())
    source = drawing(tmp_path / "survey.dxf", grid({"V2"}))
    assert "is not cut" in " ".join(check(source, "--plan", plan).output.split())


def neighbour(tmp_path: Path, heights) -> Path:
    """The slab to the right, 30 ft wide, with level joints at heights in feet."""
    right = WIDE + 30.0
    outline = [(WIDE, 0), (right, 0), (right, DEEP), (WIDE, DEEP)]
    joints = {f"N{h}": _line((WIDE, h), (right, h)) for h in heights}
    return drawing(tmp_path / "next.dxf", joints, outline)


def test_joints_that_go_on_in_the_next_slab_match(tmp_path: Path) -> None:
    source = drawing(tmp_path / "floor.dxf", grid())
    result = check(source, "--beside", neighbour(tmp_path, (10, 20)))
    assert result.exit_code == CLEAN
    assert broken(source) == set()


def test_a_joint_of_the_next_slab_that_meets_none_of_ours_is_found(tmp_path: Path) -> None:
    """UFC 3-260-02 (2001): a mismatched joint cracks the facing slab unless it is reinforced."""
    source = drawing(tmp_path / "floor.dxf", grid())
    check(source, "--beside", neighbour(tmp_path, (10, 15, 20)))
    found = [f for f in record(source)["findings"] if f["rule"] == "edge"]
    assert [f["severity"] for f in found] == ["warning"]
    assert found[0]["at"] == pytest.approx([WIDE * 304.8, 15 * 304.8], abs=1.0)
    assert "UFC 3-260-02" in found[0]["source"]


def test_a_slab_that_lies_elsewhere_is_refused(tmp_path: Path) -> None:
    source = drawing(tmp_path / "floor.dxf", grid())
    far = drawing(
        tmp_path / "far.dxf",
        {"N": _line((100, 5), (120, 5))},
        [(100, 0), (120, 0), (120, 9), (100, 9)],
    )
    assert "shares no edge" in refusal(check(source, "--beside", far))
    assert not (tmp_path / "o").exists()


@pytest.mark.parametrize("option", ["--plan", "--beside"])
def test_another_file_that_cannot_be_used_is_refused(tmp_path: Path, option: str) -> None:
    source = drawing(tmp_path / "floor.dxf", grid())
    odd = tmp_path / "odd.json"
    odd.write_text("{}")
    bare = drawing(tmp_path / "bare.dxf", {})
    for path, words in ((odd, "odd.json"), (bare, "bare"), (tmp_path / "no.json", "no.json")):
        assert words in refusal(check(source, option, path))
    assert not (tmp_path / "o").exists()


def test_a_mend_writes_the_amended_plan_with_additions_apart(tmp_path: Path) -> None:
    source = drawing(tmp_path / "floor.dxf", FAULTS["a joint that stops"][0])
    result = check(source, "--mend")
    assert result.exit_code == ERRORS
    said = " ".join(result.output.split())
    assert "1 joint added, 16 ft; errors 5 before, 0 after" in said
    assert "A1, 16'-0\": carries G2 on to the edge" in said
    amended = ezdxf.readfile(tmp_path / "o" / "floor-amended.dxf").modelspace()
    new = amended.query('LINE[layer=="S-JNTS-CTLJ-N"]')
    old = amended.query('LINE[layer=="S-JNTS-CTLJ-E"]')
    assert (len(new), len(old)) == (1, 5)
    assert not amended.query('*[layer=="S-JNTS-CTLJ"]')
    svg = (tmp_path / "o" / "floor-amended.svg").read_text()
    for words in ("Amended joint plan", "added control joint", "existing control joint", "A1"):
        assert words in svg
    after = json.loads((tmp_path / "o" / "floor-amended-layout.json").read_text())
    assert not [f for f in after["findings"] if f["severity"] == "error"]
    assert [j["id"] for j in after["joints"]] == ["G1", "G2", "G3", "G4", "G5", "A1"]


def test_a_clean_floor_is_mended_by_nothing(tmp_path: Path) -> None:
    source = drawing(tmp_path / "floor.dxf", grid())
    result = check(source, "--mend")
    assert result.exit_code == CLEAN
    assert "nothing added" in result.output
    assert (tmp_path / "o" / "floor-amended.pdf").exists()


def test_the_files_of_a_check(tmp_path: Path) -> None:
    source = drawing(tmp_path / "floor.dxf", grid({"V2"}))
    check(source)
    names = {p.name for p in (tmp_path / "o").iterdir()}
    assert {f"floor-check.{kind}" for kind in ("pdf", "svg", "dxf", "json", "csv")} <= names
    svg = (tmp_path / "o" / "floor-check.svg").read_text()
    assert "Check sheet" in svg


def test_the_same_check_gives_the_same_bytes(tmp_path: Path) -> None:
    source = drawing(tmp_path / "floor.dxf", grid({"V2"}))
    words = ("check", source, "--units", "ft", "--thickness", "4 in", "--mend", "--out")
    for folder in ("one", "two"):
        assert run(*words, tmp_path / folder).exit_code == ERRORS
    for first in sorted((tmp_path / "one").iterdir()):
        assert first.read_bytes() == (tmp_path / "two" / first.name).read_bytes(), first.name


def test_a_layout_that_was_written_by_kerfline_passes_its_own_check(tmp_path: Path) -> None:
    plan_of(tmp_path)
    written = tmp_path / "plan" / "plan-joint-plan.dxf"
    result = run("check", written, "--thickness", "4 in", "--out", tmp_path / "o")
    assert result.exit_code == CLEAN, result.output
    assert "no rule is broken" in result.output


def test_bare_thickness_is_asked_for(tmp_path: Path) -> None:
    source = drawing(tmp_path / "floor.dxf", grid())
    result = run("check", source, "--units", "ft")
    assert isinstance(result.exception, InputRefused)
    assert "--thickness" in str(result.exception)
