// Pointer and keys on the drawing: pan and zoom with every tool, and what each tool does with a tap or a drag.

import { el, shape } from "./dom.js";
import { pathData, what } from "./drawing.js";
import { dragOf, dragged, stepped, steps } from "./drags.js";
import { HANDLES, partOf } from "./handles.js";
import { onGrid, snapPoint, squareTo } from "./snap.js";

const CLICK = 5;
const WHEEL = 0.0015;
const KEY_PAN = 60;
const DIVISIBLE = ["joint", "outline", "opening"];

export const TOOLS = [
  { id: "choose", name: "Choose", key: "o", hint: "" },
  { id: "joint", name: "Draw joint", key: "j", taps: 2, hint: "Tap where the joint begins, then where it goes. It is carried on to the next edge or joint." },
  { id: "split", name: "Split", key: "s", hint: "Tap a panel to split it there (with Shift along its length), a joint to add a knee, an edge to add a corner." },
  { id: "forbid", name: "Forbid line", key: "x", taps: 2, hint: "Tap the two ends of a line where no joint may lie." },
  { id: "wall", name: "Wall", key: "w", taps: 2, hint: "Tap the two ends of the wall's centre line." },
  { id: "column", name: "Column", key: "c", taps: 1, hint: "Tap where the column stands." },
  { id: "penetration", name: "Drain", key: "d", taps: 1, hint: "Tap where the drain is." },
  { id: "opening", name: "Opening", key: "h", taps: 2, hint: "Tap two opposite corners of the opening." },
  { id: "keep-out", name: "Keep-out", key: "k", taps: 0, hint: "Tap the corners of the area, and the first corner again to close it." },
  { id: "zone", name: "Zone", key: "z", taps: 0, hint: "Tap the corners of an area with its own thickness, and the first corner again to close it. Then write how thick it is." },
  { id: "measure", name: "Measure", key: "m", taps: 2, hint: "Tap two points to see the distance between them." },
];

export class Tools {
  constructor(drawing, hands) {
    this.drawing = drawing;
    this.camera = drawing.camera;
    this.hands = hands;
    this.tool = TOOLS[0];
    this.points = [];
    this.pointers = new Map();
    const { svg } = drawing;
    svg.addEventListener("pointerdown", (event) => this.down(event));
    svg.addEventListener("pointermove", (event) => this.move(event));
    svg.addEventListener("pointerup", (event) => this.up(event));
    svg.addEventListener("pointercancel", (event) => this.cancel(event));
    svg.addEventListener("pointerleave", () => hands.tip(null));
    svg.addEventListener("wheel", (event) => this.wheel(event), { passive: false });
    svg.addEventListener("keydown", (event) => this.key(event));
    svg.addEventListener("focusin", (event) => this.focused(event));
  }

  take(id) {
    this.tool = TOOLS.find((tool) => tool.id === id) ?? TOOLS[0];
    this.points = [];
    this.cursor = null;
    this.drawing.ghost();
    this.hands.hint(this.tool.hint);
    this.hands.tool(this.tool.id);
  }

  get picture() {
    return this.hands.view().picture;
  }

  down(event) {
    if (event.button !== 0 && event.pointerType === "mouse" && event.button !== 1) return;
    this.drawing.svg.setPointerCapture(event.pointerId);
    const at = this.camera.eventPoint(event);
    this.pointers.set(event.pointerId, at);
    this.hands.tip(null);
    if (this.pointers.size === 2) {
      this.stopDrag();
      this.pinch = this.spread();
      return;
    }
    if (this.pointers.size > 2) return;
    this.start = { at, target: what(event.target), moved: false, shift: event.shiftKey };
    this.drag = this.draggable(this.start.target, event);
  }

  draggable(target, event) {
    if (this.tool.id !== "choose" || !target || !this.hands.canEdit) return null;
    return dragOf(target, this.hands.chosen(), event.pointerType === "touch");
  }

  // A handle that takes the focus is taken hold of: arrow keys move it.
  focused(event) {
    const target = what(event.target);
    if (target && HANDLES.includes(target.what)) this.hands.pick(partOf(target));
  }

  move(event) {
    const at = this.camera.eventPoint(event);
    if (!this.pointers.has(event.pointerId)) return this.hover(event, at);
    const before = this.pointers.get(event.pointerId);
    this.pointers.set(event.pointerId, at);
    if (this.pinch) return this.pinching();
    if (!this.start) return;
    if (!this.start.moved && Math.hypot(at[0] - this.start.at[0], at[1] - this.start.at[1]) < CLICK) return;
    this.start.moved = true;
    if (this.drag) this.dragTo(at, event.altKey);
    else this.camera.pan(at[0] - before[0], at[1] - before[1]);
  }

  pinching() {
    const now = this.spread();
    this.camera.pan(now.middle[0] - this.pinch.middle[0], now.middle[1] - this.pinch.middle[1]);
    if (this.pinch.size > 0) this.camera.zoom(now.size / this.pinch.size, now.middle);
    this.pinch = now;
  }

  spread() {
    const [a, b] = [...this.pointers.values()];
    return { size: Math.hypot(a[0] - b[0], a[1] - b[1]), middle: [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2] };
  }

  dragTo(at, free) {
    this.camera.hold(true);
    const [from, to] = [this.camera.toWorld(...this.start.at), this.camera.toWorld(...at)];
    const { scale } = this.camera;
    const now = dragged(this.drag, { picture: this.picture, from, to, scale, free, length: this.hands.length });
    if (!now) return;
    this.drawing.ghost(now.ghost && shape("path", { class: "moving-line", d: pathData(now.ghost) }));
    this.hands.hint(now.words ?? "");
    this.send(now.action);
  }

  send(action) {
    const key = JSON.stringify(action);
    if (key === this.lastKey) return;
    this.lastKey = key;
    this.lastAction = action;
    this.hands.preview(action);
  }

  stopDrag() {
    if (this.drag && this.lastAction) this.hands.drop();
    this.forget();
  }

  forget() {
    this.drag = null;
    this.start = null;
    this.lastKey = null;
    this.lastAction = null;
    this.camera.hold(false);
    if (!this.points.length) this.drawing.ghost();
  }

  async up(event) {
    this.pointers.delete(event.pointerId);
    if (this.pinch) {
      if (this.pointers.size < 2) this.pinch = null;
      this.start = null;
      return;
    }
    const { start, lastAction } = this;
    this.forget();
    if (!start) return;
    if (lastAction) {
      this.hands.hint("");
      await this.hands.act(lastAction);
    } else if (!start.moved) {
      this.tap(start);
    }
  }

  cancel(event) {
    this.pointers.delete(event.pointerId);
    this.pinch = null;
    this.stopDrag();
  }

  tap({ at, target, shift }) {
    const handle = target && HANDLES.includes(target.what);
    if (this.tool.id === "choose") return handle ? this.hands.pick(partOf(target)) : this.hands.choose(target);
    if (this.tool.id === "split") return this.splitAt(at, target, shift);
    this.addPoint(this.placed(at));
  }

  splitAt(at, target, turned) {
    if (DIVISIBLE.includes(target?.what)) return this.hands.act({ do: "add-vertex", what: target.what, id: target.id, at: onGrid(this.picture, this.camera.toWorld(...at)) });
    if (target?.what !== "panel") return this.hands.hint("Tap inside a panel, on a joint or on an edge.");
    this.hands.act({ do: "split", id: target.id, at: onGrid(this.picture, this.camera.toWorld(...at)), turned });
  }

  placed(at) {
    const spot = snapPoint(this.picture, this.camera.toWorld(...at), this.camera.scale);
    const last = this.points[this.points.length - 1];
    if (spot.words || !last || this.tool.id === "opening") return spot.at;
    return squareTo(last, spot.at);
  }

  addPoint(point) {
    if (this.tool.taps === 0 && this.closes(point)) return this.finish();
    if (this.tool.id === "measure" && this.points.length === 2) this.points = [];
    this.points.push(point);
    this.showPoints(point);
    if (this.tool.taps && this.points.length === this.tool.taps) this.finish();
  }

  closes(point) {
    if (this.points.length < 3) return false;
    const [x, y] = this.points[0];
    return Math.hypot(point[0] - x, point[1] - y) * this.camera.scale < 14;
  }

  showPoints(to) {
    const points = this.points.at(-1) === to ? this.points : [...this.points, to];
    const box = this.tool.id === "opening" && points.length === 2;
    const nodes = [box ? shape("path", { class: "new-shape", d: pathData(boxOf(...points), true) }) : shape("path", { class: "between", d: pathData(points) })];
    if (to === this.cursor) nodes.push(cross(to));
    for (const [x, y] of this.points) nodes.push(shape("g", { transform: `translate(${x} ${-y})` }, shape("g", { class: "upright" }, shape("circle", { class: "spot", r: 5 }))));
    if (points.length > 1) {
      const [a, b] = points.slice(-2);
      nodes.push(distance(a, b, this.hands.length(Math.hypot(b[0] - a[0], b[1] - a[1]))));
    }
    this.drawing.ghost(...nodes);
  }

  async finish() {
    const { points, tool } = this;
    if (tool.id === "measure") return;
    this.points = [];
    this.drawing.ghost();
    if (tool.id === "joint") await this.hands.act({ do: "draw", start: points[0], end: points[1] });
    else await this.hands.act({ do: "add", what: tool.id === "forbid" ? "forbidden" : tool.id, points });
    this.hands.hint(tool.hint);
  }

  hover(event, at) {
    if (event.pointerType === "touch") return;
    if (this.points.length && this.tool.id !== "measure") return this.showPoints(this.placed(at));
    if (this.points.length === 1) return this.showPoints(this.placed(at));
    if (this.tool.id === "choose") this.hands.tip(what(event.target), event);
  }

  wheel(event) {
    event.preventDefault();
    const step = event.deltaMode === 1 ? event.deltaY * 16 : event.deltaY;
    this.camera.zoom(Math.exp(-step * WHEEL), this.camera.eventPoint(event));
  }

  key(event) {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const arrow = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] }[event.key];
    if (arrow && this.tool.id !== "choose") this.moveCursor(arrow, event.shiftKey);
    else if (arrow) this.nudge(arrow, event.shiftKey);
    else if (event.key === "Enter" && this.cursor && this.tool.id !== "choose") this.placeCursor(event.shiftKey);
    else if (event.key === "+" || event.key === "=") this.camera.zoom(1.25);
    else if (event.key === "-") this.camera.zoom(0.8);
    else if (event.key === "0") this.camera.fit();
    else if (event.key === "Escape") this.escape();
    else if (!this.hands.key(event)) return;
    event.preventDefault();
  }

  escape() {
    if (this.start?.moved && this.drag) {
      this.stopDrag();
      this.hands.hint("");
    } else if (this.points.length) {
      this.points = [];
      this.drawing.ghost();
    } else if (this.tool.id !== "choose") this.take("choose");
    else if (this.hands.chosen()?.part) this.letGo();
    else this.hands.choose(null);
  }

  letGo() {
    this.drawing.svg.focus({ preventScroll: true });
    this.hands.pick(null);
  }

  // Without a pointer: arrow keys move a cross by one step of the grid, Enter taps there.
  moveCursor([dx, dy], far) {
    const { picture } = this;
    const step = picture.grid * (far ? 12 : 1);
    const [x0, y0, x1, y1] = picture.bounds;
    const [x, y] = this.cursor ?? onGrid(picture, [(x0 + x1) / 2, (y0 + y1) / 2]);
    this.cursor = [x + dx * step, y + dy * step];
    this.showPoints(this.cursor);
    this.hands.hint(`${this.hands.length(this.cursor[0] - x0)} from the left, ${this.hands.length(this.cursor[1] - y0)} from the bottom; Enter taps here.`);
  }

  placeCursor(turned) {
    if (this.tool.id !== "split") return this.addPoint(this.cursor);
    const [px, py] = this.camera.toScreen(this.cursor);
    const box = this.drawing.svg.getBoundingClientRect();
    const under = document.elementsFromPoint(px + box.left, py + box.top).map((node) => what(node));
    this.splitAt([px, py], under.find((each) => each?.what === "panel"), turned);
  }

  // Arrow keys move what is chosen, or its point, by one step of the grid (twelve with Shift), else the view.
  nudge([dx, dy], far) {
    const chosen = this.hands.canEdit ? this.hands.chosen() : null;
    const step = this.picture.grid * (far ? 12 : 1);
    const by = [dx * step, dy * step];
    if (chosen && steps(chosen)) this.hands.act((picture) => stepped(picture, this.hands.chosen(), by));
    else this.camera.pan(-dx * KEY_PAN, dy * KEY_PAN);
  }
}

function boxOf([x0, y0], [x1, y1]) {
  return [[x0, y0], [x1, y0], [x1, y1], [x0, y1]];
}

function cross([x, y]) {
  return shape("g", { transform: `translate(${x} ${-y})` }, shape("g", { class: "upright" }, shape("path", { class: "cursor", d: "M-12 0H12M0 -12V12" })));
}

export function distance(a, b, words) {
  const [x, y] = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
  return shape("g", { transform: `translate(${x} ${-y})` }, shape("g", { class: "upright" }, shape("text", { y: -8 }, words)));
}

export function toolbar(tools, only = TOOLS.map((tool) => tool.id)) {
  return TOOLS.filter((tool) => only.includes(tool.id)).map((tool) =>
    el("button", { type: "button", id: `tool-${tool.id}`, "aria-pressed": String(tool.id === "choose"), title: `${tool.name} (${tool.key.toUpperCase()})`, on: { click: () => tools.take(tool.id) } }, tool.name));
}
