"""Draws a plan the way a drafting office would: layers, walls, blocks, units, whatever the habit says."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from random import Random

import ezdxf
from ezdxf.acis import api as acis
from ezdxf.document import Drawing as Document
from ezdxf.render import MeshBuilder
from shapely import LinearRing, LineString, Polygon, affinity

from forge.plans import Door, Plan, Point

ENGLISH = {
    "slab": "S-SLAB-EDGE",
    "wall": "A-WALL",
    "column": "S-COLS",
    "pit": "S-SLAB-OPNG",
    "drain": "P-DRAIN",
    "door": "A-DOOR",
    "window": "A-GLAZ",
    "furniture": "A-FURN",
    "text": "A-ANNO-TEXT",
    "dimension": "A-ANNO-DIMS",
    "frame": "A-ANNO-TTLB",
    "grid": "S-GRID",
    "hatch": "A-PATT",
}

LANGUAGES = (
    "BODENPLATTE WAND STUETZE AUSSPARUNG ABLAUF TUEREN FENSTER MOEBEL TEXT BEMASSUNG RAHMEN ACHSEN SCHRAFFUR",
    "DALLE MURS POTEAUX TREMIE SIPHON PORTES FENETRES MOBILIER TEXTE COTATION CADRE AXES HACHURES",
    "LOSA MUROS PILARES HUECO DESAGUE PUERTAS VENTANAS MOBILIARIO TEXTO COTAS MARCO EJES TRAMA",
    "LAJE PAREDES PILARES ABERTURA RALO PORTAS JANELAS MOBILIARIO TEXTO COTAS CAJETIN EJE TRAMA",
    "SOLETTA MURI PILASTRI FORO SCARICHI PORTE FINESTRE ARREDO TESTO QUOTE SQUADRATURA ASSI RETINO",
    "VLOERPLAAT MUREN KOLOMMEN SPARING RIOOL DEUREN RAMEN MEUBELS TEKST MAATVOERING KADER GRID ARCERING",
    "BETONGPLATTA VÄGGAR PELARE ÖPPNING BRUNN DÖRRAR FÖNSTER INREDNING TEXT MÅTT RAM GRID SKRAFFERING",
    "GULVPLADE VÆGGE SØJLER ÅBNING AFLØB DØRE VINDUER INVENTAR TEKST MÅL RAMME AKSER SKRAVERING",
    "LAATTA SEINÄT PILARIT AUKKO KAIVO OVET IKKUNAT KALUSTEET TEKSTI MITAT KEHYS LINJAT RASTERI",
    "PŁYTA ŚCIANY SŁUPY OTWÓR ODPŁYW DRZWI OKNA MEBLE TEKST WYMIARY RAMKA OSIE SZRAF",
    "DESKA STĚNY SLOUPY OTVOR VPUST DVEŘE OKNA NÁBYTEK TEXT KÓTY RÁMEČEK OSY ŠRAFY",
    "ПЛИТА СТЕНЫ КОЛОННЫ ПРОЕМЫ ТРАПЫ ДВЕРИ ОКНА МЕБЕЛЬ ТЕКСТ РАЗМЕРЫ РАМКА ОСИ ШТРИХОВКА",
    "DÖŞEME DUVAR KOLON BOŞLUK GİDER KAPI PENCERE MOBİLYA YAZI ÖLÇÜ ÇERÇEVE AKS TARAMA",
    "底板 墙 柱 洞口 排水 门 窗 家具 文字 标注 图框 轴线 填充",
)
"""The same layers in other languages, in the order of ``ENGLISH``; common words of the trade."""

UNITS = {"mm": (1.0, 4), "cm": (10.0, 5), "m": (1000.0, 6), "in": (25.4, 1), "ft": (304.8, 2)}
"""Millimetres in a unit and its number in the header (DXF reference, $INSUNITS)."""


def rings_of(area: Polygon) -> list[LinearRing]:
    """The outer edge of an area and those of its holes."""
    return [area.exterior, *area.interiors]


def in_language(words: str) -> dict[str, str]:
    """Layer names by what they hold."""
    return dict(zip(ENGLISH, words.split(), strict=True))


@dataclass
class Drafter:
    """A drawing in the making; lengths come in mm and are drawn in its unit."""

    random: Random
    unit: str = "mm"
    header: str | None = ""
    layers: Mapping[str, str] = field(default_factory=lambda: dict(ENGLISH))
    turn: float = 0.0
    shift: Point = (0.0, 0.0)
    mirrored: bool = False

    def __post_init__(self) -> None:
        self.factor = UNITS[self.unit][0]
        code = 0 if self.header is None else UNITS[self.header or self.unit][1]
        self.doc: Document = ezdxf.new("R2010", units=code)
        self.space = self.doc.modelspace()
        self.target = self.space

    def place(self, x: float, y: float) -> Point:
        """A place of the plan in drawing units."""
        if self.mirrored:
            x = -x
        c, s = math.cos(math.radians(self.turn)), math.sin(math.radians(self.turn))
        gx, gy = x * c - y * s + self.shift[0], x * s + y * c + self.shift[1]
        return (gx / self.factor, gy / self.factor)

    def attribs(self, what: str) -> dict[str, str]:
        """The layer of a thing."""
        return {"layer": self.layers[what]}

    def line(self, what: str, *points: Point) -> None:
        """Lines from point to point."""
        for a, b in pairwise(points):
            self.target.add_line(self.place(*a), self.place(*b), dxfattribs=self.attribs(what))

    def poly(self, what: str, ring: Polygon | Sequence[Point], **more: float) -> None:
        """A closed polyline, one more for each hole."""
        rings = [r.coords[:-1] for r in rings_of(ring)] if isinstance(ring, Polygon) else [ring]
        for points in rings:
            places = [self.place(*p) for p in points]
            self.target.add_lwpolyline(
                places, close=True, dxfattribs={**self.attribs(what), **more}
            )

    def hatch(self, what: str, area: Polygon) -> None:
        """A solid fill with its holes."""
        hatch = self.target.add_hatch(dxfattribs=self.attribs(what))
        for number, ring in enumerate(rings_of(area)):
            points = [self.place(*p) for p in ring.coords[:-1]]
            hatch.paths.add_polyline_path(points, is_closed=True, flags=1 if number == 0 else 16)

    def region(self, what: str, area: Polygon) -> None:
        """A region of the modelling kernel, one more for each hole."""
        for ring in rings_of(area):
            mesh = MeshBuilder()
            mesh.add_face([(*self.place(*p), 0.0) for p in ring.coords[:-1]])
            region = self.target.add_region(dxfattribs=self.attribs(what))
            acis.export_dxf(region, [acis.body_from_mesh(mesh)])

    def circle(self, what: str, at: Point, radius: float) -> None:
        self.target.add_circle(self.place(*at), radius / self.factor, dxfattribs=self.attribs(what))

    def text(self, what: str, words: str, at: Point, height: float = 250.0) -> None:
        self.target.add_text(
            words,
            height=height / self.factor,
            dxfattribs={**self.attribs(what), "insert": self.place(*at)},
        )

    def door(self, door: Door) -> None:
        """Leaf and swing of a door, or the two panes of a window."""
        (x, y), (ux, uy), w = door.at, door.along, door.width
        a, b = (x - ux * w / 2, y - uy * w / 2), (x + ux * w / 2, y + uy * w / 2)
        if not door.swings:
            for off in (-30, 30):
                self.line(
                    "window", (a[0] - uy * off, a[1] + ux * off), (b[0] - uy * off, b[1] + ux * off)
                )
            return
        open_end = (a[0] - uy * w, a[1] + ux * w)
        self.line("door", a, open_end)
        hinge, start, end = (self.place(*p) for p in (a, b, open_end))
        angles = [math.degrees(math.atan2(p[1] - hinge[1], p[0] - hinge[0])) for p in (start, end)]
        if self.mirrored:
            angles.reverse()
        self.target.add_arc(
            hinge, w / self.factor, angles[0], angles[1], dxfattribs=self.attribs("door")
        )

    def dimension(self, a: Point, b: Point, off: float) -> None:
        """A dimension between two points, beside them."""
        (ax, ay), (bx, by) = self.place(*a), self.place(*b)
        override = {"dimtxt": 200 / self.factor, "dimlunit": 4 if self.unit == "in" else 2}
        dim = self.target.add_aligned_dim(
            p1=(ax, ay),
            p2=(bx, by),
            distance=off / self.factor,
            override=override,
            dxfattribs=self.attribs("dimension"),
        )
        if self.unit == "m":
            dim.dimension.dxf.text = f"{math.dist(a, b):.0f}"
        dim.render()

    def into_block(self, name: str) -> None:
        """What is drawn from now on goes into a block."""
        self.target = self.doc.blocks.new(name)


def faces(bodies: Polygon, *, caps: bool, doors: Sequence[Door]) -> list[LineString]:
    """The lines around walls; without caps those across a wall at a door are left out."""
    parts = getattr(bodies, "geoms", [bodies])
    found = []
    for part in parts:
        for ring in rings_of(part):
            found += [LineString([a, b]) for a, b in pairwise(ring.simplify(0.5).coords)]
    if caps:
        return found
    gaps = [d.gap.boundary.buffer(1.0) for d in doors]
    return [f for f in found if not (f.length < 400 and any(g.covers(f) for g in gaps))]


def moved(plan: Polygon, drafter: Drafter) -> Polygon:
    """Where a figure of the plan lies in the drawing, mm."""
    shape = affinity.scale(plan, -1, 1, origin=(0, 0)) if drafter.mirrored else plan
    shape = affinity.rotate(shape, drafter.turn, origin=(0, 0))
    return affinity.translate(shape, *drafter.shift)


def contents(d: Drafter, plan: Plan, *, dimensions: bool = True) -> None:
    """All of a plan but slab and walls."""
    for door in plan.doors:
        d.door(door)
    for column in plan.columns:
        d.poly("column", column)
    for pit in plan.pits:
        d.poly("pit", pit)
        corners = pit.exterior.coords
        if d.layers["pit"].strip("LAYER ").isdecimal() or d.random.random() < 0.3:
            d.line("pit", corners[0], corners[2])
            d.line("pit", corners[1], corners[3])
    for at in plan.drains:
        d.circle("drain", at, 60)
    for piece in plan.furniture:
        d.poly("furniture", piece)
        d.line("furniture", piece.exterior.coords[0], piece.exterior.coords[2])
    for words, at in plan.texts:
        d.text("text", words, at)
    if dimensions:
        x0, y0, x1, y1 = plan.slab.bounds
        d.dimension((x0, y0), (x1, y0), -1_500)
        d.dimension((x0, y0), (x0, y1), 1_500)
