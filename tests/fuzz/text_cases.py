"""Job files, weather tables and drawings that were damaged: values that nobody means, and text cut up."""

import io
from random import Random

import ezdxf

from fuzz.slab_cases import FEW, PLAIN, job_case
from kerfline.files.job_text import job_text

VALUES = (
    "0", "-1", "1e308", "-1e308", "1e-308", "nan", "inf", "-inf", "true", "[]", "{}", '""', '"0 in"',
    '"4"', '"4 in"', '"4 ft 99 in"', "\"4'-6 1/2\\\"\"", '"4 furlongs"', '"-3 m"', '"1e9 mm"', "[[0, 0]]",
    "[[0, 0], [0, 0], [0, 0]]", "[[0, 0], [1e200, 0], [0, 1]]", "[0, 0, 0]", '"\\u0000"', '"é\\n"',
    "1979-05-27", "07:32:00", "9999999999999999999999", '"floor"', '"*"', "[[[0, 0], [9, 0], [9, 9]]]",
)  # fmt: skip
WEATHER = """\
time,air F,humidity %,wind mph,wind height ft
06:00,61,78,3,33
09:00,70,60,6,33
12:00,80,45,9,33
15:00,84,40,10,33
18:00,77,50,7,33
"""
ezdxf.options.write_fixed_meta_data_for_testing = True
"""No hour and no mark of its own is written into a drawing: the number alone says what is damaged."""

LETTERS = "0123456789.-[]{}=\"'#,eE \t\\"

SIZES = {0: (40, 30), 1: (480, 360), 2: (40, 30), 4: (12000, 9000), 6: (12, 9), 99: (9000, 9000)}
"""Size of a plan in each drawing unit: none, in, ft, mm, m, and one that there is not."""

CELLS = (
    "",
    "0",
    "-1",
    "1e9",
    "nan",
    "inf",
    "61 F",
    "06:00",
    "24:00",
    "6",
    "25:61",
    "2026-06-14 06:00",
    '"',
    "٣",
)


def damaged_text(rng, text, values):
    """A text with a few values, lines or letters changed."""
    for _ in range(rng.choice([0, 1, 1, 1, 2, 4])):
        lines = text.splitlines()
        at = rng.randrange(len(lines))
        kind = rng.random()
        if kind < 0.45 and " = " in lines[at]:
            lines[at] = f"{lines[at].split(' = ')[0]} = {rng.choice(values)}"
        elif kind < 0.55:
            del lines[at]
        elif kind < 0.65:
            lines.insert(at, rng.choice(lines))
        elif kind < 0.75:
            lines.insert(at, f"strange = {rng.choice(values)}")
        elif lines[at]:
            spot = rng.randrange(len(lines[at]))
            letter = rng.choice([*LETTERS, "", "\u200b", "\x07"])
            lines[at] = lines[at][:spot] + letter + lines[at][spot + 1 :]
        text = "\n".join(lines) + "\n"
    return text


def job_file(number):
    """The text of a job, sound or damaged."""
    rng = Random(number)
    text = job_text(job_case(rng.randrange(100_000) * 8, 0.2, FEW if number % 10 == 0 else PLAIN))
    return damaged_text(rng, text, VALUES)


def weather_table(number):
    """A weather table, sound or damaged."""
    rng = Random(number)
    rows = [row.split(",") for row in WEATHER.splitlines()]
    for _ in range(rng.choice([0, 0, 1, 1, 2, 6])):
        row = rng.choice(rows)
        row[rng.randrange(len(row))] = (
            rng.choice(CELLS) if rng.random() < 0.6 else str(rng.randint(1, 99))
        )
    if rng.random() < 0.2:
        rng.shuffle(rows)
    if rng.random() < 0.2:
        rows[rng.randrange(len(rows))].append("7")
    mark = rng.choice([",", ",", ",", ";", "\t"])
    table = "\n".join(mark.join(row) for row in rows) + "\n"
    return damaged_text(rng, table, CELLS) if rng.random() < 0.4 else table


def drawing(number):
    """A drawing as bytes: an outline, walls and joints, its structure, group codes or bytes damaged."""
    rng = Random(number)
    data = _plan(rng)
    kind = rng.random()
    if kind < 0.35:
        return data
    if kind < 0.7:
        return _damaged_codes(rng, data)
    damaged = bytearray(data)
    for _ in range(rng.choice([1, 3, 30])):
        at = rng.randrange(len(damaged))
        damaged[at : at + rng.choice([1, 1, 4])] = rng.randbytes(rng.choice([0, 1, 4]))
    return bytes(damaged[: rng.randrange(len(damaged))] if rng.random() < 0.2 else damaged)


def _plan(rng):
    doc = ezdxf.new("R2010", setup=rng.random() < 0.2)
    unit = rng.choice(list(SIZES))
    doc.header["$INSUNITS"] = unit
    space = doc.modelspace()
    w, h = SIZES[unit] if rng.random() < 0.9 else rng.choice([(0, 0), (1e9, 1), (12, 9)])
    outline = [(0, 0), (w, 0), (w, h), (0, h)]
    outline_as = rng.choice(["polyline", "lines", "twice", "block", "spline", "bowed"])
    layer = {"layer": rng.choice(["S-SLAB", "S-SLAB-EDGE", "0", "Ebene 1", "A-WALL"])}
    if outline_as == "polyline":
        space.add_lwpolyline(outline, close=True, dxfattribs=layer)
    elif outline_as == "bowed":
        space.add_lwpolyline(
            [(x, y, rng.choice([0, 0.2, 1e9, -1])) for x, y in outline],
            format="xyb",
            close=True,
            dxfattribs=layer,
        )
    elif outline_as == "spline":
        space.add_spline([*outline, outline[0]], dxfattribs=layer)
    elif outline_as == "block":
        block = doc.blocks.new("PLAN")
        block.add_lwpolyline(outline, close=True, dxfattribs=layer)
        for _ in range(rng.choice([0, 1])):
            doc.blocks.get("PLAN").add_blockref("PLAN" if rng.random() < 0.5 else "NONE", (0, 0))
        space.add_blockref(
            "PLAN",
            (0, 0),
            dxfattribs={
                "xscale": rng.choice([1, 1, 0, -1, 1e6]),
                "row_count": rng.choice([1, 1, 50, 30000]),
                "column_count": rng.choice([1, 1, 30000]),
            },
        )
    else:
        for _ in range(2 if outline_as == "twice" else 1):
            for a, b in zip(outline, outline[1:] + outline[:1], strict=True):
                space.add_line(a, b, dxfattribs=layer)
    for _ in range(rng.choice([0, 1, 5, 40])):
        start, end = ((rng.uniform(-0.2, 1.2) * w, rng.uniform(-0.2, 1.2) * h) for _ in range(2))
        end = rng.choice([(end[0], start[1]), (start[0], end[1]), end, start])
        space.add_line(
            start, end, dxfattribs={"layer": rng.choice(["A-WALL", "S-JNTS-CTLJ", "0", "X"])}
        )
    for _ in range(rng.choice([0, 0, 2])):
        space.add_circle((rng.uniform(0, 1) * w, rng.uniform(0, 1) * h), rng.choice([0, 50, w]))
    out = io.StringIO()
    doc.write(out)
    return out.getvalue().encode("utf-8", "surrogateescape")


def _damaged_codes(rng, data):
    """Pairs of group code and value changed, dropped, doubled or moved."""
    lines = data.split(b"\n")
    pairs = [lines[i : i + 2] for i in range(0, len(lines) - 1, 2)]
    tail = [i for i, p in enumerate(pairs) if p[1].strip() == b"ENTITIES"]
    first = tail[0] if tail and rng.random() < 0.8 else 0
    for _ in range(rng.choice([1, 2, 8])):
        at = rng.randrange(first, len(pairs))
        kind = rng.random()
        if kind < 0.4:
            pairs[at] = [
                pairs[at][0],
                rng.choice([b"0", b"-1", b"1e308", b"nan", b"x", b"", b"99999999999", b"LINE"]),
            ]
        elif kind < 0.6:
            code = rng.choice(
                [b"0", b"5", b"8", b"10", b"42", b"70", b"90", b"999", b"1001", b"-5", b"abc"]
            )
            pairs[at] = [code, pairs[at][1]]
        elif kind < 0.8:
            del pairs[at]
        else:
            pairs.insert(at, rng.choice(pairs))
    return b"\n".join(b"\n".join(p) for p in pairs) + b"\n"
