// Pointers on the drawing: taps, double taps, long presses, drags, boxes and pinches, and what each means.

import { shape } from "./dom.js";
import { what } from "./drawing.js";
import { dragOf, dragged, steps } from "./drags.js";
import { HANDLES, partOf } from "./handles.js";
import { Outlining, boxBetween } from "./outlining.js";
import { pathData } from "./shapes.js";
import { onGrid } from "./snap.js";
import { toolOf } from "./tools.js";

const CLICK = 5;
const FINGER_CLICK = 9;
const DOUBLE = 350;
const DOUBLE_REACH = 14;
const LONG = 550;
const WHEEL = 0.0015;
const KEY_PAN = 60;
const DIVISIBLE = ["joint", "outline", "opening", "zone", "keep-out"];

export class Gestures {
  constructor(drawing, hands) {
    this.drawing = drawing;
    this.camera = drawing.camera;
    this.hands = hands;
    this.tool = toolOf("choose");
    this.shape = new Outlining(drawing, hands);
    this.pointers = new Map();
    const { svg } = drawing;
    const on = (name, action) => svg.addEventListener(name, action, { passive: false });
    on("pointerdown", (event) => this.down(event));
    on("pointermove", (event) => this.move(event));
    on("pointerup", (event) => this.up(event));
    on("pointercancel", (event) => this.cancel(event));
    on("pointerleave", () => hands.tip(null));
    on("wheel", (event) => this.wheel(event));
    on("contextmenu", (event) => this.menu(event));
    // A finger that lifts is done: no click of a mouse follows it onto whatever has come to lie there.
    on("touchend", (event) => event.cancelable && event.preventDefault());
    on("focusin", (event) => this.focused(event));
  }

  take(id) {
    this.tool = toolOf(id);
    this.shape.begin(this.tool);
    // With a tool in hand marks of findings are in nobody's way.
    this.drawing.svg.classList.toggle("tooling", !this.choosing);
    this.hands.hint(this.tool.hint);
    this.hands.tool(this.tool.id);
  }

  get picture() {
    return this.hands.view().picture;
  }

  get choosing() {
    return ["choose", "several"].includes(this.tool.id);
  }

  down(event) {
    if (event.button !== 0 && event.pointerType === "mouse" && event.button !== 1) return;
    this.drawing.svg.setPointerCapture(event.pointerId);
    const at = this.camera.eventPoint(event);
    this.pointers.set(event.pointerId, at);
    this.hands.tip(null);
    clearTimeout(this.pressing);
    if (this.pointers.size === 2) {
      this.stopDrag();
      this.pinch = this.spread();
      return;
    }
    if (this.pointers.size > 2) return;
    const target = this.drawing.hit(event);
    this.start = { at, target, moved: false, shift: event.shiftKey, finger: event.pointerType === "touch", pan: event.button === 1 };
    this.drag = this.draggable(target, event);
    if (this.start.finger) this.pressing = setTimeout(() => this.longPress(event), LONG);
  }

  draggable(target, event) {
    if (!this.choosing || event.button === 1 || !this.hands.canEdit) return null;
    if (event.shiftKey || (this.tool.id === "several" && !this.hands.selection.has(target))) return { kind: "box" };
    return target && dragOf(target, this.hands.selection, event.pointerType === "touch");
  }

  // A handle that takes the focus is chosen: arrow keys move it.
  focused(event) {
    const target = what(event.target);
    if (target && HANDLES.includes(target.what)) this.hands.selection.pick(partOf(target));
  }

  move(event) {
    const at = this.camera.eventPoint(event);
    if (!this.pointers.has(event.pointerId)) return this.hover(event, at);
    const before = this.pointers.get(event.pointerId);
    this.pointers.set(event.pointerId, at);
    if (this.pinch) return this.pinching();
    if (!this.start) return undefined;
    const slack = this.start.finger ? FINGER_CLICK : CLICK;
    if (!this.start.moved && Math.hypot(at[0] - this.start.at[0], at[1] - this.start.at[1]) < slack) return undefined;
    clearTimeout(this.pressing);
    if (!this.start.moved) this.taken();
    this.start.moved = true;
    if (this.drag?.kind === "box") this.boxTo(at);
    else if (this.drag) this.dragTo(at, event.altKey);
    else this.camera.pan(at[0] - before[0], at[1] - before[1], true);
    return undefined;
  }

  // What is dragged is chosen from the first move on.
  taken() {
    const { drag } = this;
    if (!drag || drag.kind === "box") return;
    const mine = { what: drag.what, id: drag.id };
    if (drag.part) this.hands.selection.pick(drag.part);
    else if (!this.hands.selection.has(mine)) this.hands.choose(mine);
  }

  pinching() {
    const now = this.spread();
    this.camera.pan(now.middle[0] - this.pinch.middle[0], now.middle[1] - this.pinch.middle[1], true);
    if (this.pinch.size > 0) this.camera.zoom(now.size / this.pinch.size, now.middle, true);
    this.pinch = now;
  }

  spread() {
    const [a, b] = [...this.pointers.values()];
    return { size: Math.hypot(a[0] - b[0], a[1] - b[1]), middle: [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2] };
  }

  boxTo(at) {
    const corners = [this.start.at, at].map((point) => this.camera.toWorld(...point));
    this.box = corners;
    this.drawing.ghost(shape("path", { class: "choosing-box", d: pathData(boxBetween(...corners), true) }));
  }

  dragTo(at, free) {
    this.camera.hold(true);
    const [from, to] = [this.camera.toWorld(...this.start.at), this.camera.toWorld(...at)];
    const { scale } = this.camera;
    // Measured on what is kept, not on what the last move showed: nothing adds up, nothing sticks.
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
    clearTimeout(this.pressing);
    this.drag = null;
    this.start = null;
    this.box = null;
    this.lastKey = null;
    this.lastAction = null;
    this.camera.hold(false);
    if (!this.shape.points.length) this.drawing.ghost();
  }

  async up(event) {
    this.pointers.delete(event.pointerId);
    if (this.pinch) {
      if (this.pointers.size < 2) this.pinch = null;
      this.start = null;
      return;
    }
    const { start, lastAction, box } = this;
    this.forget();
    if (!start) return;
    if (box) this.hands.chooseWithin(box, start.shift || this.tool.id === "several");
    else if (lastAction) {
      this.hands.hint("");
      await this.hands.act(lastAction);
    } else if (!start.moved && !start.pan) this.tap(start, event.timeStamp);
  }

  cancel(event) {
    this.pointers.delete(event.pointerId);
    this.pinch = null;
    this.stopDrag();
  }

  longPress(event) {
    if (!this.start || this.start.moved) return;
    const { target } = this.start;
    this.forget();
    this.hands.menu(target, [event.clientX, event.clientY], this.camera.toWorld(...this.camera.eventPoint(event)));
  }

  menu(event) {
    event.preventDefault();
    if (event.pointerType === "touch" || this.start) return;
    this.hands.menu(this.drawing.hit(event), [event.clientX, event.clientY], this.camera.toWorld(...this.camera.eventPoint(event)));
  }

  tap(start, time) {
    const { at, target, shift } = start;
    const last = this.lastTap;
    this.lastTap = { at, time };
    const twice = last && time - last.time < DOUBLE && Math.hypot(at[0] - last.at[0], at[1] - last.at[1]) < DOUBLE_REACH;
    if (this.choosing) return this.tapToChoose(target, shift);
    if (this.tool.id === "split") return this.splitAt(at, target, shift);
    if (twice && this.shape.closable) {
      this.lastTap = null;
      return this.shape.finish();
    }
    if (twice && this.tool.closed) return undefined;
    return this.shape.add(this.shape.placed(at));
  }

  tapToChoose(target, shift) {
    if (target && HANDLES.includes(target.what)) return this.hands.selection.pick(partOf(target));
    if ((shift || this.tool.id === "several") && target) return this.hands.selection.toggle(target);
    return this.hands.choose(target);
  }

  splitAt(at, target, turned) {
    const spot = onGrid(this.picture, this.camera.toWorld(...at));
    if (DIVISIBLE.includes(target?.what)) return this.hands.act({ do: "add-vertex", what: target.what, id: target.id, at: spot });
    if (target?.what !== "panel") return this.hands.hint("Tap inside a panel, on a joint or on an edge.");
    return this.hands.act({ do: "split", id: target.id, at: spot, turned });
  }

  hover(event, at) {
    if (event.pointerType === "touch") return;
    const drawing = this.shape.points.length && (this.tool.id !== "measure" || this.shape.points.length === 1);
    if (drawing) this.shape.show(this.shape.placed(at));
    else if (this.choosing) this.hands.tip(this.drawing.hit(event), event);
  }

  wheel(event) {
    event.preventDefault();
    const step = event.deltaMode === 1 ? event.deltaY * 16 : event.deltaY;
    this.camera.zoom(Math.exp(-step * (event.ctrlKey ? WHEEL * 4 : WHEEL)), this.camera.eventPoint(event), true);
  }

  // A key wherever the focus is; tells whether it meant anything.
  key(event) {
    const arrow = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] }[event.key];
    if (arrow) this.arrow(arrow, event.shiftKey);
    else if (event.key === "Enter") return this.enter(event.shiftKey);
    else if (event.key === "Backspace" && this.shape.back()) return true;
    else if (event.key === "+" || event.key === "=") this.camera.zoom(1.25);
    else if (event.key === "-") this.camera.zoom(0.8);
    else if (event.key === "0") this.camera.fit();
    else if (event.key === "Escape") this.escape();
    else return false;
    return true;
  }

  arrow(way, far) {
    if (this.choosing) this.nudge(way, far);
    else this.shape.moveCursor(way, far);
  }

  enter(turned) {
    if (this.choosing) return false;
    const { cursor, points } = this.shape;
    const last = points.at(-1);
    const still = !cursor || (last && Math.hypot(cursor[0] - last[0], cursor[1] - last[1]) < 1);
    if (still && this.shape.closable) this.shape.finish();
    else if (!cursor) return false;
    else if (this.tool.id === "split") this.splitAtCursor(turned);
    else this.shape.add([...cursor]);
    return true;
  }

  splitAtCursor(turned) {
    const panel = this.drawing.panels.at(this.shape.cursor);
    this.splitAt(this.camera.toScreen(this.shape.cursor), panel && { what: "panel", id: panel.id }, turned);
  }

  // A drag is put back, a shape begun is given up; else the tool and the choice are left.
  escape() {
    if (this.start?.moved && this.drag) {
      this.stopDrag();
      this.hands.hint("");
    } else if (this.shape.points.length) this.shape.clear();
    else {
      if (this.tool.id !== "choose") this.take("choose");
      this.hands.choose(null);
      if (document.activeElement?.closest?.(".handle")) this.drawing.svg.focus({ preventScroll: true });
    }
  }

  // Arrow keys move what is chosen, or its point, by one step of the grid (twelve with Shift), else the view.
  nudge([dx, dy], far) {
    const { selection } = this.hands;
    const step = this.picture.grid * (far ? 12 : 1);
    if (this.hands.canEdit && selection.items.some((each) => steps(each))) this.hands.step([dx * step, dy * step]);
    else this.camera.pan(-dx * KEY_PAN, dy * KEY_PAN);
  }
}

