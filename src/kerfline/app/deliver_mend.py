"""Writes an amended plan, its additions told apart from what exists."""

import textwrap
from collections.abc import Iterator

from kerfline.app.file_names import file_stem
from kerfline.app.mend import Mended
from kerfline.app.run_mark import marked
from kerfline.app.sheet_files import sheet_files
from kerfline.model.finding import Severity
from kerfline.sheets.check_text import WIDTH
from kerfline.units import format_length, format_run, in_words

HEAD = 10
"""Columns of the words that begin a line."""

MOST = 12
"""Additions, bars and errors left that the terminal lists; the sheets have them all."""


def mend_contents(mended: Mended) -> dict[str, bytes]:
    """The files of an amended plan by name; additions carry ids that start with A."""
    from kerfline.files.layout_json import layout_json
    from kerfline.files.sheet_dxf import dxf_bytes
    from kerfline.files.tables import joints_csv
    from kerfline.sheets.joint_plan import joint_plan

    outcome = marked(mended.after)
    job, layout, findings = outcome.job, outcome.layout, outcome.findings
    stem = f"{file_stem(job.name)}-amended"
    sheets = joint_plan(job, layout, findings, outcome.rules)
    files = sheet_files(stem, sheets)
    files[f"{stem}.dxf"] = dxf_bytes(job, layout, sheets)
    files[f"{stem}-joints.csv"] = joints_csv(job, layout)
    files[f"{stem}-layout.json"] = layout_json(job, layout, findings)
    return files


def mend_text(mended: Mended) -> str:
    """What was added, what bars must answer, and what cannot be mended."""
    return "\n".join([*_added(mended), *_left(mended)])


def _added(mended: Mended) -> Iterator[str]:
    display = mended.after.job.display
    added = mended.added
    if not added:
        errors = "" if mended.before.clean else " that a joint could clear"
        yield from _line("amended", f"no error{errors}; nothing added")
        return
    length = format_run(sum(j.length for j in added), display)
    count = "1 joint" if len(added) == 1 else f"{len(added)} joints"
    before, after = (o.count(Severity.ERROR) for o in (mended.before, mended.after))
    yield from _line("amended", f"{count} added, {length}; errors {before} before, {after} after")
    for joint in added[:MOST]:
        yield from _line(
            "",
            f"{joint.id}, {format_length(joint.length, display)}: {in_words(joint.note, display)}",
        )
    yield from _more(len(added))


def _left(mended: Mended) -> Iterator[str]:
    for finding in mended.bars[:MOST]:
        yield from _line("bars", f"{finding.message} {finding.remedy}")
    yield from _more(len(mended.bars))
    for finding in mended.unmended[:MOST]:
        yield from _line("left", f"{finding.message} {finding.remedy}")
    yield from _more(len(mended.unmended))


def _more(count: int) -> Iterator[str]:
    if count > MOST:
        yield from _line("", f"and {count - MOST:,} more, all on the amended plan")


def _line(head: str, words: str) -> list[str]:
    return textwrap.wrap(
        words,
        WIDTH,
        initial_indent=head.ljust(HEAD),
        subsequent_indent=" " * HEAD,
        break_on_hyphens=False,
    )
