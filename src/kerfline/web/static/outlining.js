// The points of what is being drawn: where each comes to lie, how they look, and when the shape is done.

import { shape } from "./dom.js";
import { pathData } from "./shapes.js";
import { onGrid, snapEdge, snapPoint, squareTo } from "./snap.js";

const CLOSE = 14;

export class Outlining {
  constructor(drawing, hands) {
    this.drawing = drawing;
    this.hands = hands;
    this.points = [];
    this.cursor = null;
  }

  get picture() {
    return this.hands.view().picture;
  }

  begin(tool) {
    this.tool = tool;
    this.cursor = null;
    this.clear();
  }

  clear() {
    this.points = [];
    this.drawing.ghost();
    this.hands.drawing?.(this);
  }

  // Where a tap comes to lie: on something near by, else square to the last point and on the grid.
  placed(at) {
    const { camera } = this.drawing;
    if (this.free) return camera.toWorld(...at);
    const spot = snapPoint(this.picture, camera.toWorld(...at), camera.scale);
    if (spot.words || !this.lines) return spot.at;
    const last = this.points.at(-1);
    const square = last ? squareTo(last, spot.at) : spot.at;
    return snapEdge(this.picture, square, camera.scale) ?? square;
  }

  // Whether what is drawn runs from point to point: such lines run square, and end on an edge near by.
  get lines() {
    return this.tool.taps !== 1 && !this.tool.free && this.tool.id !== "opening";
  }

  // Whether the next point rests just where it is tapped.
  get free() {
    return this.points.length < (this.tool.free ?? 0);
  }

  // A point that is there already is one point, however often it is tapped.
  add(point) {
    if (this.tool.closed && this.closes(point)) return this.finish();
    if (this.tool.id === "measure" && this.points.length === 2) this.points = [];
    const last = this.points.at(-1);
    if (last && Math.hypot(point[0] - last[0], point[1] - last[1]) < 1) return undefined;
    this.points.push(point);
    this.show(point);
    this.hands.drawing?.(this);
    return this.tool.taps && this.points.length === this.tool.taps ? this.finish() : undefined;
  }

  back() {
    if (!this.points.length) return false;
    this.points.pop();
    if (this.points.length) this.show(this.points.at(-1));
    else this.drawing.ghost();
    this.hands.drawing?.(this);
    return true;
  }

  closes([px, py]) {
    if (this.points.length < 3) return false;
    const [x, y] = this.points[0];
    return Math.hypot(px - x, py - y) * this.drawing.camera.scale < CLOSE;
  }

  get closable() {
    return Boolean(this.tool?.closed) && this.points.length > 2;
  }

  async finish() {
    const { points, tool } = this;
    if (tool.id === "measure") return;
    this.clear();
    await this.hands.drawn(tool, points);
    if (this.tool === tool) this.hands.hint(tool.hint);
  }

  show(to) {
    const points = this.points.at(-1) === to ? this.points : [...this.points, to];
    const box = this.tool.id === "opening" && points.length === 2;
    const nodes = [];
    if (this.tool.closed && points.length > 2) nodes.push(shape("path", { class: "new-shape", d: pathData(points, true) }));
    nodes.push(box ? shape("path", { class: "new-shape", d: pathData(boxBetween(...points), true) }) : shape("path", { class: "between", d: pathData(points) }));
    if (to === this.cursor) nodes.push(cross(to));
    nodes.push(...this.points.map(spotShape));
    if (points.length > 1 && !this.tool.free) nodes.push(distance(...points.slice(-2), this.hands.length));
    this.drawing.ghost(...nodes);
  }

  // Without a pointer: arrow keys move a cross by one step of the grid, Enter taps there.
  moveCursor([dx, dy], far) {
    const { picture } = this;
    const step = this.free ? (far ? 24 : 1) / this.drawing.camera.scale : picture.grid * (far ? 12 : 1);
    const [x0, y0, x1, y1] = picture.bounds;
    const [x, y] = this.cursor ?? this.points.at(-1) ?? onGrid(picture, [(x0 + x1) / 2, (y0 + y1) / 2]);
    this.cursor = [x + dx * step, y + dy * step];
    this.show(this.cursor);
    this.hands.hint(`${this.hands.length(this.cursor[0] - x0)} from the left, ${this.hands.length(this.cursor[1] - y0)} from the bottom; Enter taps here.`);
  }
}

export function boxBetween([x0, y0], [x1, y1]) {
  return [[x0, y0], [x1, y0], [x1, y1], [x0, y1]];
}

function spotShape([x, y]) {
  return shape("g", { transform: `translate(${x} ${-y})` }, shape("g", { class: "upright" }, shape("circle", { class: "spot", r: 5 })));
}

function cross([x, y]) {
  return shape("g", { transform: `translate(${x} ${-y})` }, shape("g", { class: "upright" }, shape("path", { class: "cursor", d: "M-12 0H12M0 -12V12" })));
}

function distance(a, b, length) {
  const [x, y] = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
  return shape("g", { transform: `translate(${x} ${-y})` }, shape("g", { class: "upright" }, shape("text", { y: -8 }, length(Math.hypot(b[0] - a[0], b[1] - a[1])))));
}
