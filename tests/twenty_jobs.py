"""Twenty jobs of all kinds: plain and with walls, posts, pits and placements, turned, narrow, feet and metric."""

from kerfline.geometry.ring import Ring
from kerfline.model.job import Job
from kerfline.model.slab import Column, Slab, Wall
from kerfline.units import Unit
from shapes import feet

ELL = ((0, 0), (60, 0), (60, 24), (36, 24), (36, 40), (0, 40))
TEE = ((0, 0), (54, 0), (54, 20), (36, 20), (36, 40), (18, 40), (18, 20), (0, 20))
TURNED = ((0, 0), (52, 26), (40, 50), (-12, 24))


def job_of(name, outline, *, units=Unit.FT, thickness=127.0, **more):
    pours = more.pop("pours", None)
    day = {"pours": {"volume": pours, "access": ["left"]}} if pours else {}
    slab = Slab(outline=Ring(feet(*outline)), thickness=thickness, **more)
    return Job(name=name, units=units, slab=slab, day=day)


WALLS = (Wall(id="W1", path=feet((0, 24), (36, 24))), Wall(id="W2", path=feet((18, 24), (18, 40))))
HOLE = (Ring(feet((20, 8), (26, 8), (26, 14), (20, 14))),)
POSTS = tuple(
    Column(id=f"C{n}", at=feet((x, y))[0]) for n, (x, y) in enumerate([(15, 12), (30, 12)], 1)
)
JOBS = [
    job_of("plain", ((0, 0), (40, 0), (40, 24), (0, 24))),
    job_of("plain metric", ((0, 0), (40, 0), (40, 24), (0, 24)), units=Unit.M),
    job_of("plain in placements", ((0, 0), (60, 0), (60, 36), (0, 36)), pours="12 yd3"),
    job_of("metric in placements", ((0, 0), (60, 0), (60, 36), (0, 36)), units=Unit.MM, pours="9 m3"),
    job_of("ell", ELL),
    job_of("ell in placements", ELL, pours="12 yd3"),
    job_of("ell with walls", ELL, walls=WALLS),
    job_of("ell with walls in placements", ELL, walls=WALLS, pours="14 yd3"),
    job_of("tee", TEE),
    job_of("tee in placements", TEE, pours="10 yd3"),
    job_of("pit", ELL, openings=HOLE),
    job_of("pit in placements", ELL, openings=HOLE, pours="12 yd3"),
    job_of("posts", ((0, 0), (45, 0), (45, 24), (0, 24)), columns=POSTS),
    job_of("posts in placements", ((0, 0), (45, 0), (45, 24), (0, 24)), columns=POSTS, pours="8 yd3"),
    job_of("turned", TURNED),
    job_of("turned in placements", TURNED, pours="9 yd3"),
    job_of("strip", ((0, 0), (120, 0), (120, 6), (0, 6))),
    job_of("strip in placements", ((0, 0), (120, 0), (120, 6), (0, 6)), pours="4 yd3"),
    job_of("thick", ELL, thickness=203.2),
    job_of("thin", ELL, thickness=88.9, units=Unit.MM),
]  # fmt: skip
