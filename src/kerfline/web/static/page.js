// The page: brings the drawing, the tools, the lists and the working state together.

import { byId, el, shape, swap } from "./dom.js";
import { accountList } from "./account.js";
import { Drawing } from "./drawing.js";
import { Desk } from "./desk.js";
import { details } from "./details.js";
import { Doings } from "./doings.js";
import { Entry } from "./entry.js";
import { findingsList, newSeen } from "./findings.js";
import { Gestures } from "./gestures.js";
import { pointsOf } from "./handles.js";
import { bindImport } from "./import.js";
import { askAbout } from "./import_box.js";
import { boxOf } from "./grid.js";
import { bindKeys } from "./keys.js";
import { lengthText } from "./lengths.js";
import { Link } from "./link.js";
import { bindTabs, jointsList, panelsList, slabList, totalsLine } from "./lists.js";
import { listOf } from "./many.js";
import { openMenu } from "./menu.js";
import { gathered } from "./naming.js";
import { announce, notice, showTip } from "./notices.js";
import { Phone } from "./phone.js";
import { askColumns, showKeys, showNotes } from "./boxes.js";
import { Selection } from "./selection.js";
import { pathData } from "./shapes.js";
import { Start, blankPicture } from "./start.js";
import { Conflict, ask } from "./server.js";
import { tasksOf } from "./tasks.js";
import { Tracing } from "./tracing.js";
import { cornersOf } from "./underlay.js";
import { TOOLS, showTool, toolbar } from "./tools.js";

const desk = new Desk();
const drawing = new Drawing(byId("drawing"));
drawing.editable = true;
const phone = new Phone();
const seen = newSeen();
const link = new Link(() => attempt(() => desk.resume()));
let view = null;
// What stands on the board before there is a slab.
let blank = null;
const start = new Start({
  unit: (units) => showBlank(units),
  trace: () => tracing.choose(),
  tracing: () => blank?.state.tracing ?? null,
  outlined: (points) => drawing.ghost(shape("path", { class: "new-shape", d: pathData(points, true) })),
  ask: (said) => ask("begin", said),
  begun: (answer) => {
    blank = null;
    begin(answer);
    desk.keepSoon();
    phone.set("low");
    drawing.camera.fit();
    gestures.take("choose");
  },
});
const selection = new Selection(choiceChanged);

const doings = new Doings({ desk, drawing, selection, choose, said: notice, askField });
const hands = {
  canEdit: true,
  selection,
  view: () => desk.now ?? blank,
  choose,
  chooseWithin: (corners, more) => doings.chooseWithin(corners, more),
  pick: (part) => selection.pick(part),
  act: (action) => (desk.now ? doings.act(action) : actOnBlank(action)),
  drawn: (tool, points) => tool.free ? tracing.picked(tool, points) : (desk.now ? doings.drawn(tool, points) : start.drawn(points)),
  drawing: () => entry?.show(),
  step: (by) => doings.step(by),
  pin: () => doings.pin(),
  copy: () => doings.copy(),
  repeat: () => doings.repeat(),
  remove: () => doings.remove(),
  menu: showMenu,
  preview: (action) => desk.preview(action),
  drop: () => desk.drop(),
  hint: (words) => swap(byId("hint"), words),
  tool: (id) => showTool(id),
  tip: (target, event) => showTip(desk.now?.picture, target, event),
  length: (mm) => lengthText(mm, hands.view().picture.display),
};
let entry = null;
const gestures = new Gestures(drawing, hands);
entry = new Entry({
  attempt,
  origin: () => hands.view().picture.bounds.slice(0, 2),
  units: () => hands.view().picture.units.length,
  corners: () => hands.view().picture.slab.outline,
  look: (box) => drawing.camera.fitting(box, 64),
}, gestures.shape);
bindTabs(document.querySelector(".tabs"), () => view && showLists());
swap(byId("tools"), toolbar((id) => gestures.take(id)));

desk.on("change", (next, why) => {
  view = next;
  if (why !== "preview") doings.remember(next.picture);
  drawing.chosen = selection.items;
  drawing.draw(next.picture, { state: next.state });
  tracing.show();
  refresh(why);
});
desk.on("trouble", showTrouble);
desk.on("saved", showSaved);
desk.on("said", announce);

function refresh(why) {
  const { picture, state } = view;
  if (why === "open") document.title = `${picture.job} · kerfline`;
  swap(byId("job-name"), picture.job);
  totalsLine(byId("totals"), picture.totals, picture.rules);
  swap(byId("tab-findings"), `Findings ${picture.findings.length}`);
  nameStep("undo", desk.past.at(-1)?.name);
  nameStep("redo", desk.future.at(-1)?.name);
  swap(byId("thickness-unit"), picture.units.depth);
  if (document.activeElement !== byId("thickness") || why !== "preview") byId("thickness").value = picture.slab.thickness;
  byId("rule-set").value = state.rule_set;
  byId("to-maximum").checked = state.to_maximum;
  showLists();
}

// Undo and redo say what they would undo and redo.
function nameStep(id, name) {
  const word = id === "undo" ? "Undo" : "Redo";
  byId(id).disabled = name === undefined;
  const words = name ? `${word}: ${name}` : word;
  byId(id).setAttribute("aria-label", words);
  byId(id).title = words;
  swap(byId(id), word, name ? el("small", {}, name) : null);
}

function choiceChanged() {
  const items = selection.items;
  if (view) for (const each of items) each.at ??= placeOf(view.picture, each);
  drawing.mark(items);
  phone.chose(items.length ? gathered(items) : "");
  if (view) showLists();
}

const LISTS = {
  "list-findings": () => findingsList(view.picture, choose, selection, seen, showLists),
  "list-panels": () => panelsList(view.picture, choose, selection),
  "list-joints": () => jointsList(view.picture, choose, selection, view.state),
  "list-slab": () => slabList(view.picture, choose, selection),
  "list-account": () => accountList(view.picture),
};

function showLists() {
  const focus = document.activeElement?.dataset?.key;
  swap(byId("details"), details(view, selection, hands));
  // Only the list that is seen is worth its time while a pointer moves.
  for (const [id, make] of Object.entries(LISTS)) if (!byId(id).hidden) swap(byId(id), make());
  if (focus) document.querySelector(`[data-key="${CSS.escape(focus)}"]`)?.focus({ preventScroll: true });
}

// The first field of what came new waits for the user's words.
function askField() {
  const input = byId("details").querySelector("input:not([type=checkbox])");
  input?.focus({ preventScroll: true });
  input?.select();
}

function choose(target, goThere = false) {
  if (!desk.now) return;
  const picture = desk.now.picture;
  selection.only(target && { ...target, at: placeOf(picture, target) });
  const at = selection.one?.at;
  if (at && (goThere || (phone.small && hidden(at)))) {
    const far = Math.max(picture.bounds[2] - picture.bounds[0], picture.bounds[3] - picture.bounds[1]);
    drawing.camera.goTo(at, Math.min(far / 2, 4000));
  }
}

function hidden(at) {
  const [x, y] = drawing.camera.toScreen(at);
  const [width, height] = drawing.camera.size;
  return x < 0 || y < 0 || x > width || y > height;
}

function placeOf(picture, { what, id }) {
  if (what === "panel") return picture.panels.find((each) => each.id === id)?.at;
  if (what === "finding") return picture.findings[Number(id)]?.at;
  const one = what === "outline" ? null : listOf(picture, what).find((each) => each.id === id);
  const points = one?.path ?? one?.outline ?? (one?.at ? [one.at] : pointsOf(picture, { what, id }));
  if (!points?.[0]) return undefined;
  const sum = points.reduce(([a, b], [x, y]) => [a + x, b + y], [0, 0]);
  return sum.map((value) => value / points.length);
}

function showMenu(target, screen, at) {
  if (!desk.now) return;
  const { title, entries } = doings.entries(target, at);
  openMenu(screen, title, entries, byId("drawing"));
}

// The menu key, without a pointer: at what is chosen.
function menuByKey() {
  const { one, items } = selection;
  const at = one?.at ?? (one && placeOf(desk.now.picture, one)) ?? null;
  const box = byId("sheet").getBoundingClientRect();
  const [x, y] = at ? drawing.camera.toScreen(at) : [box.width / 3, box.height / 3];
  showMenu(one ?? items[0] ?? null, [x + box.left, y + box.top], at);
}

function showSaved(how) {
  const words = {
    saved: desk.file ? `Saved in ${desk.file}` : "",
    new: "Not saved yet",
    unsaved: "Keeping …",
    kept: "Draft kept, not saved",
    alone: "Not kept",
  };
  swap(byId("saved"), words[how]);
}

function showTrouble(trouble) {
  if (trouble?.name === "AbortError") return notice("Stopped.");
  if (link.heard(trouble)) return undefined;
  if (trouble instanceof Conflict) return showConflict(trouble);
  return notice(trouble.message || String(trouble), { stay: true, key: "refused" });
}

function showConflict(trouble) {
  notice(trouble.message, { key: "conflict", actions: [["Take the other one", open], ["Keep this one", () => keepMine(trouble.which)]] });
}

function keepMine(which) {
  return attempt(() => (which === "file" ? desk.save(true) : desk.keep(true)));
}

async function attempt(job) {
  try {
    return await job();
  } catch (trouble) {
    showTrouble(trouble);
    return null;
  }
}

const { busy, ...tasks } = tasksOf({ desk, attempt, begin, choose });
const commands = {
  ...tasks,
  undo: () => attempt(() => desk.undo()),
  redo: () => attempt(() => desk.redo()),
  "unpin-all": () => doings.act({ do: "pin", pinned: false }),
  "choose-all": () => doings.chooseAll(),
  "column-grid": async () => {
    const action = await askColumns(desk.now.picture.units.length);
    if (action) doings.act(action);
  },
  print: () => window.print(),
  keys: () => showKeys(TOOLS),
};
for (const [id, action] of Object.entries(commands)) {
  byId(id)?.addEventListener("click", () => {
    closeMore();
    if (desk.now || id === "keys") action();
  });
}
const tracing = new Tracing({
  drawing,
  closeMore,
  busy,
  view: () => desk.now ?? blank,
  act: hands.act,
  hint: hands.hint,
  take: (id) => {
    if (phone.small) phone.set("low");
    gestures.take(id);
  },
  laid: () => phone.small && phone.set("half"),
  left: () => gestures.take(desk.now ? "choose" : "outline"),
});
drawing.lost = ({ file }) => notice(`The picture ${file} is not beside the job, or cannot be read any more. Put it there again, or lay it anew.`, { stay: true, key: "tracing" });
const importHands = {
  trace: (file) => tracing.bring(file),
  closeMore,
  busy,
  thickness: () => desk.now?.picture.slab.thickness ?? asked?.thickness ?? "",
  take: takeDrawing,
  left: () => {
    if (!desk.now) notice("Nothing is open. Load the page again to read the file, or import another one under More.", { stay: true });
  },
};
bindImport(byId("import"), byId("file"), byId("sheet"), importHands);

// What a drawing gave becomes the state: the first one where the page was opened on a drawing alone.
function takeDrawing(answer) {
  if (desk.now) desk.step({ state: answer.state, picture: answer.picture, at: answer.at }, "import a drawing");
  else begin({ ...asked, ...answer });
  drawing.camera.fit();
  if (answer.notes.length) showNotes("How the drawing was read", answer.notes);
}

byId("zoom-in").addEventListener("click", () => drawing.camera.zoom(1.4));
byId("zoom-out").addEventListener("click", () => drawing.camera.zoom(1 / 1.4));
byId("fit").addEventListener("click", () => drawing.camera.fit());
byId("thickness").addEventListener("change", (event) => doings.act({ do: "thickness", text: event.target.value }));
const chooseRules = () => doings.act({ do: "rules", set: byId("rule-set").value, to_maximum: byId("to-maximum").checked });
byId("rule-set").addEventListener("change", chooseRules);
byId("to-maximum").addEventListener("change", chooseRules);

byId("more").addEventListener("click", () => {
  const open = byId("more-list").hidden;
  byId("more-list").hidden = !open;
  byId("more").setAttribute("aria-expanded", String(open));
  if (open) byId("more-list").querySelector("button").focus();
});
function closeMore() {
  byId("more-list").hidden = true;
  byId("more").setAttribute("aria-expanded", "false");
}
document.addEventListener("click", (event) => {
  if (!event.target.closest(".actions")) closeMore();
});
byId("more-list").addEventListener("keydown", (event) => {
  if (event.key !== "Escape") return;
  event.preventDefault();
  closeMore();
  byId("more").focus();
});

// Keys without Ctrl, wherever the focus is.
function onKey(event) {
  const key = event.key.toLowerCase();
  if (gestures.key(event)) return true;
  if (key === "e") return entry.write();
  if (!desk.now) return false;
  const tool = TOOLS.find((each) => each.key === key);
  if (key === "delete" || key === "backspace") doings.remove();
  else if (key === "p") doings.pin();
  else if (key === "f" && selection.one?.what === "joint") doings.forbid();
  else if (key === "contextmenu" || (key === "f10" && event.shiftKey)) menuByKey();
  else if (tool) gestures.take(tool.id);
  else return false;
  return true;
}

function onCommand(event, typed) {
  if (!desk.now) return;
  const key = event.key.toLowerCase();
  const text = window.getSelection?.().toString();
  const todo = {
    s: event.shiftKey ? commands["save-as"] : commands.save,
    z: typed ? null : event.shiftKey ? commands.redo : commands.undo,
    y: typed ? null : commands.redo,
    c: typed || text ? null : () => doings.copy(),
    v: typed ? null : () => doings.paste(),
    a: typed ? null : () => doings.chooseAll(),
  }[key];
  if (!todo) return;
  event.preventDefault();
  todo();
}
bindKeys({ onKey, onCommand, ready: () => Boolean(desk.now ?? blank) });
window.addEventListener("beforeunload", () => desk.keepNow());

// Until there is something to work on nothing answers but the button that stops the wait.
function sleep(on) {
  for (const node of document.querySelectorAll("#tools, #drawing, .zoom, .side")) node.inert = on;
}

// The answer to "open": a state, or a drawing of which the user must say what it holds.
let asked = null;
async function open() {
  sleep(!desk.now);
  asked = await busy("Opening", (signal, work) => ask("open", { work }, signal));
  // Where laying out was stopped the slab is there without joints.
  asked ??= await attempt(() => ask("open", { bare: true }));
  if (!asked) return;
  if (asked.blank) return beginBlank();
  if (asked.undrawn) return importHands.left();
  if (asked.drawing) askAbout(asked.drawing, importHands);
  else begin(asked);
  if (asked.reading?.length) notice(["How the drawing was read:", ...asked.reading].join("\n"), { stay: true, key: "reading" });
  if (asked.restored) notice(asked.restored, { stay: true });
}

function beginBlank() {
  sleep(false);
  showBlank("ft");
  // What is out of sight cannot take the focus.
  phone.set("half");
  start.show();
  gestures.take("outline");
}

function showBlank(units, { tracing: state = blank?.state.tracing ?? null, shown = blank?.picture.tracing ?? null } = {}) {
  const picture = blankPicture(units);
  // What is traced is what is seen at first; it is dragged by no accident.
  blank = { state: { units, tracing: state }, picture: shown ? { ...picture, tracing: { ...shown, held: true }, bounds: boxOf(cornersOf(shown)) } : picture };
  drawing.draw(blank.picture);
  tracing.show();
  swap(byId("job-name"), blank.picture.job);
}

// Before there is a slab only what lies under it can change.
async function actOnBlank(action) {
  const { units } = blank.state;
  const answer = await attempt(() => ask("tracing/lay", { tracing: blank.state.tracing, action, units }));
  if (answer) showBlank(units, { tracing: answer.state, shown: answer.shown });
  return answer;
}

function begin(answer) {
  sleep(false);
  swap(byId("rule-set"), answer.ruleSets.map((set) => el("option", { value: set.name, title: set.about ?? "" }, set.title)));
  desk.begin(answer);
}

open();
