// What a hand does to what is chosen: act and choose what came of it, delete, move, copy, repeat, and the menu.

import { askRepeat } from "./boxes.js";
import { boxOf } from "./grid.js";
import { handlesOf, pointsOf, samePart } from "./handles.js";
import { copyOf, copyable, deleteOf, listOf, newThings, pinOf, stepOf } from "./many.js";
import { gathered, named } from "./naming.js";
import { TOGETHER } from "./selection.js";
import { onGrid } from "./snap.js";

const PASTE_STEPS = 24;

export class Doings {
  // `page` gives desk, selection, choose, busy words and where fields are shown.
  constructor(page) {
    this.page = page;
    this.copied = [];
  }

  get selection() {
    return this.page.selection;
  }

  get picture() {
    return this.page.desk.now.picture;
  }

  // Does an action, then chooses what it made, or the point that it was about.
  async act(action) {
    const { desk } = this.page;
    const before = desk.now.picture;
    const answer = await desk.act(action);
    if (!answer) return null;
    const { picture } = answer;
    // What comes about by the way, such as a joint that a new boxout parts, is not what was made.
    const kinds = action.do === "repeat" ? action.items.map((each) => each.what) : [action.what ?? "joint"];
    const made = newThings(before, picture).filter((each) => kinds.includes(each.what));
    if (action.do === "add-vertex") this.chooseNewPoint(action, before, picture);
    else if (["add", "draw", "split", "repeat"].includes(action.do) && made.length) this.selection.set(made);
    else if (["delete", "forbid"].includes(action.do) || (action.do === "many" && action.actions[0].do === "delete")) this.selection.only(null);
    if (action.do === "add" && action.what === "zone") this.page.askField();
    return answer;
  }

  chooseNewPoint(action, before, picture) {
    const were = pointsOf(before, action);
    const index = pointsOf(picture, action).findIndex(([x, y]) => !were.some((p) => p[0] === x && p[1] === y));
    this.selection.only({ what: action.what, id: action.id, part: index < 0 ? null : { kind: "vertex", index } });
  }

  // A shape that was drawn becomes what its tool is for.
  drawn(tool, points) {
    if (tool.id === "joint") return this.act({ do: "draw", start: points[0], end: points[1] });
    return this.act({ do: "add", what: tool.id === "forbid" ? "forbidden" : tool.id, points });
  }

  remove() {
    const action = deleteOf(this.selection.items);
    return action ? this.act(action) : null;
  }

  // Key after key: each step starts from what the one before left.
  step(by) {
    return this.page.desk.act((picture) => stepOf(picture, this.selection.items, by));
  }

  pin() {
    const action = pinOf(this.page.desk.now.state, this.selection.items);
    return action ? this.act(action) : null;
  }

  forbid() {
    const { one } = this.selection;
    return one?.what === "joint" ? this.act({ do: "forbid", id: one.id }) : null;
  }

  copy() {
    this.copied = copyable(this.selection.items);
    if (this.copied.length) this.page.said(`Copied ${gathered(this.copied)}; Ctrl + V or the menu puts the copy down.`);
  }

  // Beside what was copied, or with its middle at a place.
  paste(at) {
    const there = this.copied.filter((each) => listOf(this.picture, each.what).some((one) => one.id === each.id));
    if (!there.length) return null;
    const step = this.picture.grid * PASTE_STEPS;
    const [x, y] = at ? this.middleOf(there) : [0, 0];
    const by = at ? onGrid({ ...this.picture, bounds: [0, 0, 0, 0] }, [at[0] - x, at[1] - y]) : [step, step];
    return this.act(copyOf(there, by));
  }

  middleOf(items) {
    const [x0, y0, x1, y1] = boxOf(items.flatMap((each) => this.pointsOf(each)));
    return [(x0 + x1) / 2, (y0 + y1) / 2];
  }

  pointsOf({ what, id }) {
    const one = listOf(this.picture, what).find((each) => each.id === id);
    return one?.path ?? one?.outline ?? one?.corners?.map((corner) => corner.at) ?? (one?.at ? [one.at] : []);
  }

  async repeat() {
    const items = copyable(this.selection.items);
    if (!items.length) return null;
    const said = await askRepeat(gathered(items), this.picture.units.length);
    return said?.text ? this.act({ do: "repeat", items, ...said }) : null;
  }

  // Everything of the kinds that go together whose middle lies in a box.
  chooseWithin(corners, more) {
    const [x0, y0, x1, y1] = boxOf(corners);
    const found = this.everything().filter((each) => {
      const points = this.pointsOf(each);
      if (!points.length) return false;
      const [ax, ay, bx, by] = boxOf(points);
      return ax >= x0 && bx <= x1 && ay >= y0 && by <= y1;
    });
    const kept = more ? this.selection.items.filter((each) => TOGETHER.includes(each.what) && !found.some((one) => one.what === each.what && one.id === each.id)) : [];
    this.selection.set([...kept.map((each) => ({ ...each, part: null })), ...found]);
  }

  everything() {
    return TOGETHER.flatMap((what) => listOf(this.picture, what).map(({ id }) => ({ what, id, part: null })));
  }

  chooseAll() {
    this.selection.set(this.everything());
  }

  // What can be done at a place: words and deeds, for the menu.
  entries(target, at) {
    const several = this.selection.items.length > 1 && target && this.selection.has(target);
    if (target && !several && !this.handleOf(target)) this.page.choose(target);
    const items = this.selection.items;
    const [one] = items;
    const out = several ? [] : this.entriesOf(target, at, one);
    if (copyable(items).length) {
      if (out.length) out.push(null);
      out.push([`Copy ${several ? gathered(items) : ""}`.trim(), () => this.copy()], ["Repeat …", () => this.repeat()], [`Delete ${several ? gathered(items) : ""}`.trim(), () => this.remove()]);
    }
    if (this.copied.length) out.push([`Put the copy of ${gathered(this.copied)} here`, () => this.paste(at)]);
    out.push(null, ["Show all", () => this.page.drawing.camera.fit()]);
    if (items.length) out.push(["Choose nothing", () => this.page.choose(null)]);
    return { title: several ? gathered(items) : target ? named(this.handleOf(target) ?? target) : "The slab", entries: out };
  }

  handleOf(target) {
    return ["end", "vertex"].includes(target?.what) ? this.selection.one : null;
  }

  entriesOf(target, at, one) {
    const spot = at && onGrid(this.picture, at);
    const what = target?.what;
    if (what === "vertex") return [[`Delete this ${one.what === "joint" ? "bend" : "corner"}`, () => { this.selection.pick({ kind: "vertex", index: Number(target.id.split(" ", 1)[0]) }); this.remove(); }]];
    if (what === "joint") {
      const pinned = this.page.desk.now.state.joints.find((each) => each.id === target.id)?.pinned;
      return [[pinned ? "Unpin" : "Pin", () => this.pin()], ["Forbid here", () => this.forbid()], ["Add a bend here", () => this.act({ do: "add-vertex", what, id: target.id, at: spot })]];
    }
    if (what === "panel") {
      return [
        ["Split across", () => this.act({ do: "split", id: target.id, at: spot })],
        ["Split along", () => this.act({ do: "split", id: target.id, at: spot, turned: true })],
        ["Column here", () => this.act({ do: "add", what: "column", points: [spot] })],
        ["Drain here", () => this.act({ do: "add", what: "penetration", points: [spot] })],
      ];
    }
    if (["outline", "opening", "zone", "keep-out"].includes(what)) return [["Add a corner here", () => this.act({ do: "add-vertex", what, id: target.id, at: spot })]];
    return [];
  }

  // After a change: what is chosen stays chosen as far as it is there.
  remember(picture) {
    const near = (a, b) => b && Math.hypot(a[0] - b[0], a[1] - b[1]) < 300;
    const kept = this.selection.items.map((each) => {
      if (each.what === "panel") {
        // Panels are numbered anew, so a panel is found by its place.
        const here = picture.panels.find((panel) => near(panel.at, each.at));
        return here && { ...each, id: here.id, at: here.at };
      }
      if (each.what === "finding") return null;
      if (!["outline", "tracing"].includes(each.what) && !listOf(picture, each.what).some((one) => one.id === each.id)) return null;
      if (each.part && !handlesOf(picture, each).some((one) => samePart(one, each.part))) return { ...each, part: null };
      return each;
    });
    this.selection.items = kept.filter(Boolean);
  }
}
