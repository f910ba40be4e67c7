// Draws a picture (see picture.py) as SVG. Draws only; decides and measures nothing.

import { shape, swap } from "./dom.js";
import { Camera } from "./camera.js";
import { handleShape, handlesOf } from "./handles.js";

const ID_ROOM = [22, 15];
const STACK_ROOM = [50, 46];
const LETTER = 6.4;
const LINE_HEIGHT = 30;
const TEXT_HEIGHT = 12;
const FAR = 44;
const LIFTS = { full: -32, stack: -36, name: -17, none: 0 };
const STRING_GAP = 22;
const LABEL_ROOM = 46;
const MARKS = { error: "!", warning: "?", advice: "i" };

export class Drawing {
  constructor(svg) {
    this.svg = svg;
    this.layers = {};
    const names = ["concrete", "panels", "rings", "zones", "keepOuts", "walls", "objects", "joints", "labels", "findings", "handles", "strings", "ghost"];
    this.world = shape("g", { class: "world" });
    for (const name of names) {
      this.layers[name] = shape("g", { class: `layer ${name}` });
      this.world.append(this.layers[name]);
    }
    swap(svg, patterns(), this.world);
    this.camera = new Camera(svg, this.world);
    this.camera.onChange(() => {
      for (const pattern of svg.querySelectorAll("pattern")) {
        pattern.setAttribute("patternTransform", `scale(${1 / this.camera.scale}) rotate(${pattern.dataset.turn})`);
      }
      this.soon();
    });
    this.labels = [];
    this.panelMarks = new Map();
    this.strings = [];
    this.chosen = null;
    this.editable = false;
  }

  draw(picture, extra = {}) {
    this.picture = picture;
    this.draft = extra.state;
    swap(this.layers.concrete, concrete(picture.slab));
    swap(this.layers.rings, ringShapes(picture.slab));
    swap(this.layers.zones, picture.slab.zones.map((zone) => zoneShape(zone)));
    swap(this.layers.keepOuts, picture.slab.keepOuts.map((each) => area("keep-out", each)));
    swap(this.layers.walls, picture.slab.walls.map(wall), picture.slab.edges.map(edge));
    swap(this.layers.objects, picture.slab.columns.map(column), picture.slab.penetrations.map(penetration));
    this.drawPanels(picture);
    this.drawJoints(picture);
    const marks = findingMarks(picture).filter(Boolean);
    swap(this.layers.findings, marks);
    this.panelMarks = new Map(marks.filter((node) => node.dataset.panel).map((node) => [node.dataset.panel, node]));
    this.drawStrings(picture);
    this.camera.show(picture.bounds);
    this.mark(this.chosen);
    this.fitTexts();
  }

  drawPanels(picture) {
    swap(this.layers.panels, picture.panels.map(panel));
    this.labels = picture.panels.map(panelLabel);
    swap(this.layers.labels, this.labels.map((label) => label.node));
  }

  drawJoints(picture) {
    const pins = new Set((this.draft?.joints ?? []).filter((j) => j.pinned).map((j) => j.id));
    swap(
      this.layers.joints,
      picture.slab.forbidden.map(forbidden),
      picture.joints.map((each) => joint(each, pins.has(each.id))),
    );
  }

  drawStrings(picture) {
    this.strings = picture.dimensions.flatMap((string) => dimensionString(string, picture.bounds));
    swap(this.layers.strings, this.strings.map((part) => part.node));
  }

  ghost(...nodes) {
    swap(this.layers.ghost, ...nodes);
  }

  mark(chosen) {
    this.chosen = chosen;
    for (const node of this.world.querySelectorAll(".chosen")) node.classList.remove("chosen");
    this.drawHandles(chosen);
    if (!chosen) return;
    for (const node of this.world.querySelectorAll("[data-id]")) {
      if (node.dataset.id === chosen.id && node.dataset.what === chosen.what) node.classList.add("chosen");
    }
  }

  // A handle that has the focus keeps it when it is drawn anew; where it is gone the drawing takes it.
  drawHandles(chosen) {
    const held = document.activeElement?.closest?.(".handle");
    const focused = held && this.layers.handles.contains(held) ? held.dataset : null;
    const handles = this.editable ? handlesOf(this.picture, chosen) : [];
    swap(this.layers.handles, handles.map((each) => handleShape(this.picture, chosen, each)));
    if (!focused) return;
    const again = [...this.layers.handles.children].find((node) => node.dataset.what === focused.what && node.dataset.id === focused.id);
    (again ?? this.svg).focus({ preventScroll: true });
  }

  soon() {
    if (this.waiting) return;
    this.waiting = requestAnimationFrame(() => {
      this.waiting = undefined;
      this.fitTexts();
    });
  }

  fitTexts() {
    const scale = this.camera.scale;
    const widths = this.labels.map((label) => Math.min(...label.size)).sort((a, b) => a - b);
    this.svg.classList.toggle("far", widths.length > 0 && widths[Math.floor(widths.length / 2)] * scale < FAR);
    for (const label of this.labels) {
      const [width, height] = [label.size[0] * scale, label.size[1] * scale];
      const fits = ([w, h]) => width >= w && height >= h;
      const how = fits(label.lineRoom) ? "full" : fits(STACK_ROOM) ? "stack" : fits(ID_ROOM) ? "name" : "none";
      label.node.setAttribute("class", `label ${how}`);
      this.panelMarks.get(label.id)?.style.setProperty("--lift", `${LIFTS[how]}px`);
    }
    for (const part of this.strings) part.node.classList.toggle("tight", part.room * scale < LABEL_ROOM && part.kind === "text");
  }
}

export function what(target) {
  const node = target.closest?.("[data-id]");
  return node ? { what: node.dataset.what, id: node.dataset.id } : null;
}

export function pathData(points, closed = false) {
  const text = points.map(([x, y], index) => `${index ? "L" : "M"}${x} ${-y}`).join("");
  return closed && text ? `${text}Z` : text;
}

function rings(outline, openings) {
  return [outline, ...openings].map((ring) => pathData(ring, true)).join("");
}

// The outline is taken by its edge, an opening anywhere inside.
function ringShapes(slab) {
  const lines = [slab.outline, ...slab.openings];
  return slab.rings.map((ring, index) => {
    const d = pathData(lines[index], true);
    return shape("g", { class: `ring ${ring.what}`, "data-what": ring.what, "data-id": ring.id }, shape("path", { class: "reach", d }), shape("path", { class: "line", d }));
  });
}

function patterns() {
  const hatch = (id, turn) =>
    shape(
      "pattern",
      { id, width: 8, height: 8, patternUnits: "userSpaceOnUse", "data-turn": turn },
      shape("path", { d: "M0 4H8", class: `line-${id}` }),
    );
  return shape("defs", {}, hatch("hatch-keep-out", 45), hatch("hatch-zone", 135));
}

function concrete(slab) {
  return shape("path", { class: "slab", d: rings(slab.outline, slab.openings), "fill-rule": "evenodd" });
}

function panel(each) {
  return shape("path", {
    class: `panel ${each.status}`,
    d: rings(each.outline, each.openings),
    "fill-rule": "evenodd",
    "data-what": "panel",
    "data-id": each.id,
  });
}

function panelLabel(each) {
  const xs = each.outline.map((p) => p[0]);
  const ys = each.outline.map((p) => p[1]);
  const [x, y] = [each.at[0], -each.at[1]];
  const line = (cls, ...texts) =>
    shape("g", { class: cls }, texts.map((text, i) => textAt(text, 0, (i - (texts.length - 1) / 2) * (TEXT_HEIGHT + 3), i ? "" : "id")));
  // Drawings in millimetres leave the unit out.
  const [length, width] = [each.length, each.width].map((text) => text.replace(/ mm$/, ""));
  const words = `${length} × ${width}`;
  const node = shape(
    "g",
    { transform: `translate(${x} ${y})`, class: "label" },
    line("as-line", each.id, words),
    line("as-stack", each.id, length, width),
    line("as-name", each.id),
  );
  const wide = Math.min(Math.max(...xs) - Math.min(...xs), each.mm.length);
  const high = Math.min(Math.max(...ys) - Math.min(...ys), each.mm.length);
  return { id: each.id, node, size: [wide, high], lineRoom: [words.length * LETTER + 20, LINE_HEIGHT] };
}

function textAt(text, dx, dy, cls = "") {
  const node = shape("text", { class: cls }, text);
  node.style.transform = `translate(calc(var(--px) * ${dx}), calc(var(--px) * ${dy}))`;
  return node;
}

function joint(each, pinned) {
  const d = pathData(each.path);
  const group = shape(
    "g",
    { class: `joint ${each.kind}${pinned ? " pinned" : ""}`, "data-what": "joint", "data-id": each.id },
    shape("path", { class: "reach", d }),
    shape("path", { class: "line", d }),
  );
  if (pinned) group.append(pin(middle(each.path)));
  return group;
}

function pin([x, y]) {
  const node = shape("rect", { class: "pin", x: -4, y: -4, width: 8, height: 8 });
  return shape("g", { transform: `translate(${x} ${-y})` }, shape("g", { class: "upright" }, node));
}

export function middle(path) {
  const spans = path.slice(1).map(([x, y], i) => Math.hypot(x - path[i][0], y - path[i][1]));
  let left = spans.reduce((a, b) => a + b, 0) / 2;
  for (let i = 0; i < spans.length; i += 1) {
    if (left <= spans[i]) {
      const t = spans[i] ? left / spans[i] : 0;
      return [path[i][0] + t * (path[i + 1][0] - path[i][0]), path[i][1] + t * (path[i + 1][1] - path[i][1])];
    }
    left -= spans[i];
  }
  return path[path.length - 1];
}

function forbidden(each) {
  const d = pathData(each.path);
  return shape(
    "g",
    { class: "joint forbidden", "data-what": "forbidden", "data-id": each.id },
    shape("path", { class: "reach", d }),
    shape("path", { class: "line", d }),
  );
}

function wall(each) {
  return shape(
    "g",
    { class: `wall${each.bearing ? " bearing" : ""}`, "data-what": "wall", "data-id": each.id },
    shape("path", { class: "body", d: pathData(each.outline, true) }),
    shape("path", { class: "reach", d: pathData(each.path) }),
  );
}

function edge(each) {
  return shape("path", { class: `edge ${each.kind}`, d: pathData(each.path) });
}

function column(each) {
  const [x, y] = [each.at[0], -each.at[1]];
  return shape(
    "g",
    { class: "column", "data-what": "column", "data-id": each.id },
    shape("path", { class: "boxout", d: pathData(each.outline, true) }),
    shape("g", { transform: `translate(${x} ${y})` }, shape("g", { class: "upright" }, shape("rect", { class: "post", x: -3.5, y: -3.5, width: 7, height: 7 }))),
  );
}

function penetration(each) {
  const [x, y] = [each.at[0], -each.at[1]];
  return shape(
    "g",
    { class: `penetration ${each.kind}`, "data-what": "penetration", "data-id": each.id },
    shape("circle", { class: "hole", cx: x, cy: y, r: each.radius }),
    shape("g", { transform: `translate(${x} ${y})` }, shape("g", { class: "upright" }, shape("path", { class: "cross", d: "M-6 0H6M0 -6V6" }), shape("circle", { class: "reach", r: 10 }))),
  );
}

// A zone is taken by its border, so that the panels inside can still be chosen.
function zoneShape(each) {
  const d = pathData(each.outline, true);
  return shape("g", { class: "zone", "data-what": "zone", "data-id": each.id }, shape("path", { class: "border", d }), shape("path", { class: "reach", d }));
}

function area(kind, each) {
  return shape("path", { class: kind, d: pathData(each.outline, true), "data-what": kind, "data-id": each.id });
}

// A finding about a whole panel stands above the panel's label, one mark for all of them, the worst.
function findingMarks(picture) {
  const panels = new Map(picture.panels.map((each) => [each.id, each]));
  const marked = new Set();
  return picture.findings.map((each, index) => {
    const panel = panels.get(each.subject);
    if (panel && (marked.has(panel.id) || (each.severity !== panel.status && panel.status !== "ok"))) return null;
    if (panel) marked.add(panel.id);
    const [x, y] = panel ? panel.at : each.at;
    return shape(
      "g",
      { class: `finding ${each.severity}`, transform: `translate(${x} ${-y})`, "data-what": "finding", "data-id": index, "data-panel": panel?.id },
      shape("g", { class: "upright" }, shape("g", { class: "mark" }, shape("circle", { r: 8 }), shape("text", { y: 4 }, MARKS[each.severity]))),
    );
  });
}

function dimensionString(string, [x0, y0]) {
  const level = string.axis === "x";
  const place = (value) => (level ? `translate(${value} ${-y0})` : `translate(${x0} ${-value})`);
  const tick = level ? `M0 ${STRING_GAP - 5}v10` : `M${-STRING_GAP - 5} 0h10`;
  const ends = [string.stops[0], string.stops[string.stops.length - 1]];
  const base = ends.map((stop) => (level ? [stop, y0] : [x0, stop]));
  const shift = level ? `translate(0px, calc(var(--px) * ${STRING_GAP}))` : `translate(calc(var(--px) * ${-STRING_GAP}), 0px)`;
  const baseline = shape("path", { d: pathData(base) });
  baseline.style.transform = shift;
  const parts = [{ kind: "line", room: 0, node: baseline }];
  string.stops.forEach((stop) => parts.push({
    kind: "tick",
    room: 0,
    node: shape("g", { class: "tick", transform: place(stop) }, shape("g", { class: "upright" }, shape("path", { d: tick }))),
  }));
  string.texts.forEach((text, i) => {
    const [from, to] = [string.stops[i], string.stops[i + 1]];
    const [spot, turn] = level ? [`0 ${STRING_GAP - 5}`, 0] : [`${-STRING_GAP - 5} 0`, -90];
    parts.push({
      kind: "text",
      room: to - from,
      node: shape(
        "g",
        { class: "span", transform: place((from + to) / 2) },
        shape("g", { class: "upright" }, shape("g", { transform: `translate(${spot}) rotate(${turn})` }, shape("text", {}, text))),
      ),
    });
  });
  return parts;
}
