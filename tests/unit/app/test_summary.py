"""The summary: one line a matter, of a layout that is laid out and of one that is given; and a quick start."""

import subprocess
import sys
from dataclasses import replace
from pathlib import Path

from checked import grid_slab, joint
from kerfline.app.check import check_job
from kerfline.app.lay_out import lay_out_job
from kerfline.app.summary import WIDTH, findings_text, summary
from kerfline.files.set_record import Written
from kerfline.model.finding import Finding, Rule, Severity
from kerfline.model.job import Job, SheetChoice
from kerfline.model.layout import Solution, Status
from kerfline.model.slab import Wall
from kerfline.units import MM_PER_FOOT, Unit


def job_of(slab, **more):
    return Job(name="Workshop", units=Unit.FT, slab=slab, effort=1.0, **more)


def rows(outcome, written=None):
    """The lines of a summary by their first word."""
    return dict(line.split(maxsplit=1) for line in summary(outcome, written).splitlines())


def wall(name, y, to):
    spots = ((0.0, y * MM_PER_FOOT), (to * MM_PER_FOOT, y * MM_PER_FOOT))
    return Wall(id=name, path=spots)


def test_of_a_given_layout_the_advised_and_the_greatest_span_are_told():
    """4 in at 30 t is 10 ft, at 36 t 12 ft (ACI 330, 1987; ACI 302.1R, 1996)."""
    told = rows(check_job(job_of(grid_slab(2, 2, bay=11.0))))
    assert told["slab"].endswith("panels of 10'-0\" a side, 12'-0\" at most")
    assert told["panels"].endswith("110% of 10'-0\"")
    assert told["quality"] == "layout as given"
    assert told["findings"] == "0 errors, 4 warnings, 0 advice"


def test_a_wall_without_a_joint_is_told_of_a_given_layout():
    slab = grid_slab(walls=(wall("W1", 10, 40), wall("W2", 15, 25)))
    assert rows(check_job(job_of(slab)))["walls"] == "2, 1 with a finding under the wall rule (W2)"
    kept = replace(slab, walls=slab.walls[:1])
    assert rows(check_job(job_of(kept)))["walls"] == "1, no finding under the wall rule"


def test_of_a_layout_that_was_laid_out_its_limit_and_proof_are_told(tmp_path):
    outcome = lay_out_job(job_of(grid_slab(2, 2, joints=())))
    told = rows(outcome, Written(files=(tmp_path / "a.pdf", tmp_path / "b.dxf")))
    assert told["slab"].endswith("panels of 10'-0\" a side, 12'-0\" at most")
    assert told["panels"].startswith("4; the longest")
    assert told["joints"].startswith("2, 40 ft in all")
    assert "joint length 40 ft" in told["quality"]
    assert told["files"] == f"{tmp_path} (a: PDF; b: DXF)"


def test_letters_that_the_sheets_cannot_show_are_told():
    """The shipped font has Latin, Greek and Cyrillic; the PDF would leave the others out without a word."""
    fields = {"project": "Школа № 5, école", "owner": "艇庫"}
    told = rows(check_job(replace(job_of(grid_slab()), sheet=SheetChoice(fields=fields))))
    assert told["letters"].startswith("the sheets' font lacks № 庫 艇, which")
    plain = replace(job_of(grid_slab()), sheet=SheetChoice(fields={"project": "Школа Ωμέγα école"}))
    assert "letters" not in rows(check_job(plain))


def test_findings_are_told_worst_first_within_the_width_and_counted_where_cut():
    slab = grid_slab(4, 3, bay=13.0)
    outcome = check_job(job_of(replace(slab, joints=(*slab.joints, joint("S", (20, 0), (20, 14))))))
    text = findings_text(outcome.findings, most=5)
    assert max(map(len, text.splitlines())) <= WIDTH
    assert text.startswith("error")
    assert text.endswith(f"... and {len(outcome.findings) - 5} more, all in the JSON file")


def finding(rule, severity, number):
    words = f"{rule.value} {severity.value} {number}"
    return Finding(
        rule=rule, severity=severity, subject=f"P{number}", message=words, measured=1.0, limit=2.0,
        remedy="Mend it.", source="practice", at=(0.0, 0.0),
    )  # fmt: skip


def test_hundreds_of_findings_under_one_rule_do_not_hide_those_under_the_next():
    """Three of each are shown, then what else there is room for, and all are counted."""
    kinds = [
        (Rule.ASPECT, Severity.ERROR, 200), (Rule.ANGLE, Severity.ERROR, 2),
        (Rule.WIDTH, Severity.WARNING, 1500), (Rule.TEE_END, Severity.ADVICE, 40),
    ]  # fmt: skip
    found = [finding(rule, how, n) for rule, how, count in kinds for n in range(count)]
    lines = findings_text(found).splitlines()
    for rule, how, count in kinds:
        shown = [line for line in lines if f"{rule.value} {how.value} " in line]
        assert len(shown) >= min(count, 3)
    assert len([line for line in lines if " error " in f" {line}"]) == 6
    assert lines[-1].startswith(f"... and {len(found) - 12} more")
    assert (
        lines[-2] == "in all: error: angle 2, aspect 200; warning: width 1,500; advice: tee-end 40"
    )


def test_of_many_walls_without_a_joint_the_first_are_named_and_the_rest_counted():
    outcome = check_job(job_of(grid_slab()))
    walls = tuple(Wall(id=f"W{n}", path=((n, 0.0), (n, 900.0)), thickness=100.0) for n in range(40))
    job = replace(outcome.job, slab=replace(outcome.job.slab, walls=walls))
    solution = replace(outcome.layout.solution, status=Status.PARTS)
    for count, words in ((12, "W0, W1, W2, W3, W4, W5, W6, W7, W8, W9, W10, W11: no room"),
                         (13, "W0, W1, W2 and 10 more: no room")):  # fmt: skip
        left = {f"W{n}": "no room" for n in range(count)}
        layout = replace(outcome.layout, walls_left=left, solution=solution)
        told = rows(replace(outcome, job=job, layout=layout))
        assert told["walls"] == f"40, {count} without a joint ({words})"


def test_a_bound_far_under_the_length_is_not_told():
    """On some round slabs the bound is next to nothing: "8280 % over" tells nobody anything."""
    outcome = check_job(job_of(grid_slab()))
    length = outcome.layout.joint_length
    for share, told, weighed in ((0.02, 0, 0), (0.79, 0, 0), (0.81, 1, 1), (1.0, 1, 0)):
        solution = Solution(status=Status.PARTS, cost=2.0, bound=2.0, length_bound=share * length)
        told_of = summary(replace(outcome, layout=replace(outcome.layout, solution=solution)))
        words = " ".join(told_of.split())
        same = "more than the least that any layout needs along the same directions, with the same joints at walls,"
        assert words.count(same) == told
        assert words.count("length is weighed against square and even panels") == weighed
        assert "proven the best on their candidate lines" in words


def test_a_bound_of_joints_that_run_through_is_told_as_that():
    outcome = check_job(job_of(grid_slab()))
    length = outcome.layout.joint_length
    solution = Solution(status=Status.OPTIMAL, length_bound=0.9 * length, through=True)
    told = summary(replace(outcome, layout=replace(outcome.layout, solution=solution)))
    words = " ".join(told.split())
    assert "at most 11.1% more than the least that any layout needs along the same" in words
    assert (
        "walls, columns and corners, the others run from edge to edge or to one of these, and"
        in words
    )


def test_a_remedy_that_findings_share_is_told_once_and_every_message_stays():
    outcome = check_job(job_of(grid_slab(4, 3, bay=13.0)))
    remedies = {f.remedy for f in outcome.findings}
    assert len(remedies) < len(outcome.findings), "the slab must break one rule more than once"
    told = " ".join(findings_text(outcome.findings, most=99).split())
    assert all(" ".join(f.message.split()) in told for f in outcome.findings)
    assert sum(told.count(r) for r in remedies) < len(outcome.findings)


HEAVY = ("ezdxf", "shapely", "numpy", "pydantic", "highspy", "reportlab", "svgwrite", "networkx")


def loaded_after(code: str) -> set[str]:
    """The heavy libraries that some code loads in an interpreter of its own."""
    told = f"import sys\n{code}\nprint([m for m in {HEAVY!r} if m in sys.modules])"
    done = subprocess.run([sys.executable, "-c", told], capture_output=True, text=True, check=True)
    return {m for m in HEAVY if repr(m) in done.stdout}


def test_help_loads_no_heavy_library():
    assert loaded_after("import kerfline.cli.program") == set()


def test_a_job_without_a_drawing_is_read_without_what_reads_drawings(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_text(
        '[job]\nname = "a"\nunits = "ft"\n[slab]\nthickness = "4 in"\n'
        "outline = [[0, 0], [20, 0], [20, 20], [0, 20]]\n"
    )
    code = f"from pathlib import Path\nfrom kerfline.app.open_job import open_job\nopen_job(Path({str(path)!r}))"
    assert not loaded_after(code) & {"ezdxf", "highspy", "reportlab", "svgwrite"}
