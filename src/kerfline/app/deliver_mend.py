"""Writes an amended plan, its additions told apart from what exists."""

from collections.abc import Sequence
from pathlib import Path

from kerfline.app.deliver import file_stem
from kerfline.app.mend import Mended
from kerfline.model.finding import Finding
from kerfline.units import format_run


def mend_contents(mended: Mended) -> dict[str, bytes]:
    """The files of an amended plan by name; additions carry ids that start with A."""
    from kerfline.files.layout_json import layout_json
    from kerfline.files.sheet_dxf import dxf_bytes
    from kerfline.files.sheet_pdf import pdf_bytes
    from kerfline.files.sheet_svg import svg_bytes
    from kerfline.files.tables import joints_csv
    from kerfline.sheets.joint_plan import joint_plan

    outcome = mended.after
    job, layout, findings = outcome.job, outcome.layout, outcome.findings
    stem = f"{file_stem(job.name)}-amended"
    sheets = joint_plan(job, layout, findings, outcome.rules)
    files = {f"{stem}.pdf": pdf_bytes(sheets)}
    for number, sheet in enumerate(sheets, start=1):
        part = "" if number == 1 else f"-{number}"
        files[f"{stem}{part}.svg"] = svg_bytes(sheet)
    files[f"{stem}.dxf"] = dxf_bytes(job, layout, sheets)
    files[f"{stem}-joints.csv"] = joints_csv(job, layout)
    files[f"{stem}-layout.json"] = layout_json(job, layout, findings)
    return files


def mend_text(mended: Mended, written: Sequence[Path]) -> str:
    """What was added, what bars must answer, and what cannot be mended."""
    if not mended.added:
        first = "no error that a joint could clear; nothing added"
    else:
        joints = [j for j in mended.after.layout.joints if j.id in mended.added]
        length = format_run(sum(j.length for j in joints), mended.after.job.display)
        first = f"{len(joints)} joints added, {length}: {', '.join(mended.added)}"
    lines = [f"amended   {first}"]
    if mended.bars:
        lines.append(f"bars      {_places(mended.bars)} (a licensed engineer decides)")
    lines.extend(f"left      {f.message} {f.remedy}" for f in mended.unmended)
    lines.append(f"files     {written[0].parent} ({', '.join(p.name for p in written)})")
    return "\n".join(lines)


def _places(findings: Sequence[Finding]) -> str:
    count = len(findings)
    subjects = ", ".join(dict.fromkeys(f.subject for f in findings))
    return f"{count} {'place' if count == 1 else 'places'} where a joint does not help: {subjects}"
