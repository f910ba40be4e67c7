// Texts on the drawing: sizes of panels and names of joints, as far as there is room for them on the screen.

import { shape } from "./dom.js";
import { clipped } from "./grid.js";

const ID_ROOM = [22, 15];
const STACK_ROOM = [50, 46];
const LETTER = 6.4;
const LINE_HEIGHT = 30;
const TEXT_HEIGHT = 15;
const FAR = 44;
const BOLD_LETTER = 8;
const MARK = 11;
// How far above a panel's middle its finding stands, by how the panel is labelled.
const LIFTS = { full: -32, stack: -38, name: -17, none: 0 };

// Facts of a panel's label that no view changes.
export function labelled(panels) {
  return panels.map((panel) => {
    const xs = panel.outline.map((p) => p[0]);
    const ys = panel.outline.map((p) => p[1]);
    // Drawings in millimetres leave the unit out.
    const [length, width] = [panel.length, panel.width].map((text) => text.replace(/ mm$/, ""));
    const words = `${length} × ${width}`;
    return {
      id: panel.id,
      at: panel.at,
      texts: { full: [panel.id, words], stack: [panel.id, length, width], name: [panel.id] },
      size: [Math.min(Math.max(...xs) - Math.min(...xs), panel.mm.length), Math.min(Math.max(...ys) - Math.min(...ys), panel.mm.length)],
      room: words.length * LETTER + 20,
      name: Math.max(ID_ROOM[0], panel.id.length * BOLD_LETTER + 2),
    };
  });
}

export function howMuch(label, scale) {
  const [width, height] = [label.size[0] * scale, label.size[1] * scale];
  const fits = ([w, h]) => width >= w && height >= h;
  return fits([label.room, LINE_HEIGHT]) ? "full" : fits(STACK_ROOM) ? "stack" : fits([label.name, ID_ROOM[1]]) ? "name" : "none";
}

// How far from a panel's middle its finding stands: above its words, else before them, else in the panel's corner.
export function liftOf(label, scale) {
  const how = howMuch(label, scale);
  const [width, height] = label.size.map((side) => (side * scale) / 2);
  const beside = halfWidth(label.texts[how] ?? []) + MARK;
  if (how === "none" || height >= MARK - LIFTS[how]) return [0, LIFTS[how]];
  if (width >= beside + MARK) return [-beside, 0];
  return [Math.min(MARK - width, 0), Math.min(MARK - height, 0)];
}

const halfWidth = (texts) => Math.max(0, ...texts.map((text, i) => text.length * (i ? LETTER : BOLD_LETTER))) / 2;

// Whether the panels are so small on the screen that marks must be small too.
export function isFar(labels, scale) {
  const widths = labels.map((label) => Math.min(...label.size)).sort((a, b) => a - b);
  return widths.length > 0 && widths[Math.floor(widths.length / 2)] * scale < FAR;
}

export function panelLabels(labels, camera, box) {
  const out = [];
  for (const label of labels) {
    const [x, y] = label.at;
    if (x < box[0] || x > box[2] || y < box[1] || y > box[3]) continue;
    const how = howMuch(label, camera.scale);
    if (how === "none") continue;
    const texts = label.texts[how];
    out.push({
      half: [halfWidth(texts), (texts.length * TEXT_HEIGHT) / 2],
      at: camera.toScreen(label.at),
      key: `${how} ${texts.join(" ")}`,
      make: () => shape("g", { class: "label" }, texts.map((text, i) => shape("text", { class: i ? "" : "id", y: (i - (texts.length - 1) / 2) * TEXT_HEIGHT }, text))),
      place: (node) => node.setAttribute("transform", translate(camera.toScreen(label.at))),
    });
  }
  return out;
}

const NAME_STRETCH = 46;
const NAME_HEIGHT = 15;
const SHARES = [0.1, 0.35, 0.65, 0.9, 0.5, 0.22, 0.78];

// Each joint's name stands on its line, near where it comes into sight, where nothing else is written.
export function jointNames(joints, camera, nameOf = (each) => each.id, labels = []) {
  const [width, height] = camera.size;
  const sight = [18, 18, width - 18, height - 40];
  const taken = new Taken();
  for (const { at, half } of labels) taken.add(at, half);
  const out = [];
  for (const each of joints) {
    const seen = longest(each.path.map((point) => camera.toScreen(point)), sight);
    if (!seen || seen.size < NAME_STRETCH) continue;
    const name = nameOf(each);
    const half = [(name.length * BOLD_LETTER) / 2 + 1, NAME_HEIGHT / 2];
    const spot = SHARES.map((share) => along(seen, share)).find((at) => taken.free(at, half));
    if (!spot) continue;
    taken.add(spot, half);
    out.push({
      key: `${each.id} ${name}`,
      make: () => shape("g", { class: "joint-name" }, shape("text", { y: 4 }, name)),
      place: (node) => node.setAttribute("transform", translate(spot)),
    });
  }
  return out;
}

const CELL = 48;

// Where something is written already: boxes by their middles and half sides, found by cells of the screen.
class Taken {
  constructor() {
    this.cells = new Map();
  }

  each([x, y], [w, h], visit) {
    for (let i = Math.floor((x - w) / CELL); i <= Math.floor((x + w) / CELL); i += 1)
      for (let j = Math.floor((y - h) / CELL); j <= Math.floor((y + h) / CELL); j += 1) visit(`${i},${j}`);
  }

  add(at, half) {
    this.each(at, half, (key) => (this.cells.get(key) ?? this.cells.set(key, []).get(key)).push([at, half]));
  }

  free(at, half) {
    let free = true;
    this.each(at, half, (key) => {
      for (const [other, size] of this.cells.get(key) ?? []) if (Math.abs(at[0] - other[0]) < half[0] + size[0] && Math.abs(at[1] - other[1]) < half[1] + size[1]) free = false;
    });
    return free;
  }
}

function longest(points, sight) {
  let best = null;
  for (let i = 1; i < points.length; i += 1) {
    const part = clipped(points[i - 1], points[i], sight);
    if (!part) continue;
    const size = Math.hypot(part[1][0] - part[0][0], part[1][1] - part[0][1]);
    if (!best || size > best.size) best = { from: part[0], to: part[1], size };
  }
  return best;
}

// A name keeps its own half width from the ends of what is seen.
function along({ from, to, size }, share) {
  const inset = Math.min(20 / size, 0.45);
  const t = Math.min(Math.max(share, inset), 1 - inset);
  return [from[0] + t * (to[0] - from[0]), from[1] + t * (to[1] - from[1])];
}

export function translate([x, y]) {
  return `translate(${Math.round(x * 10) / 10} ${Math.round(y * 10) / 10})`;
}
