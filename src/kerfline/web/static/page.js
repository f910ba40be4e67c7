// The page: brings the drawing, the tools, the lists and the working state together.

import { byId, el, swap } from "./dom.js";
import { Drawing } from "./drawing.js";
import { Desk } from "./desk.js";
import { Tools, TOOLS, toolbar } from "./tools.js";
import { details } from "./details.js";
import { bindTabs, findingsList, jointsList, panelsList, slabList, totalsLine } from "./lists.js";
import { handlesOf, pointsOf, samePart } from "./handles.js";
import { lengthText } from "./lengths.js";
import { busy as whileBusy, message, showTip } from "./notices.js";
import { Conflict, Refused, ask, askForFile } from "./server.js";
import { ask as confirmBox, showAlternatives, showKeys, showExport } from "./boxes.js";
import { askAbout, bindImport } from "./import.js";

const desk = new Desk();
const drawing = new Drawing(byId("drawing"));
drawing.editable = true;
let chosen = null;
let view = null;

const hands = {
  canEdit: true,
  view: () => view ?? desk.now,
  chosen: () => chosen,
  choose,
  pick,
  act,
  preview: (action) => desk.preview(action),
  drop: () => desk.drop(),
  hint: (words) => swap(byId("hint"), words),
  tool: showTool,
  tip: (target, event) => showTip(desk.now.picture, target, event),
  length: (mm) => lengthText(mm, desk.now.picture.display),
  key: shortcut,
};
const tools = new Tools(drawing, { ...hands, view: () => desk.now });
bindTabs(document.querySelector(".tabs"), () => view && showLists());
swap(byId("tools"), toolbar(tools));

desk.on("change", (next, why) => {
  view = next;
  drawing.draw(next.picture, { state: next.state });
  if (why !== "preview") remember();
  refresh(why);
});
desk.on("trouble", showTrouble);
desk.on("saved", showSaved);

function refresh(why) {
  const { picture, state } = view;
  if (why === "open") document.title = `${picture.job} · kerfline`;
  swap(byId("job-name"), picture.job);
  totalsLine(byId("totals"), picture.totals, picture.rules);
  swap(byId("tab-findings"), `Findings ${picture.findings.length}`);
  byId("undo").disabled = !desk.past.length;
  byId("redo").disabled = !desk.future.length;
  if (document.activeElement !== byId("thickness") || why !== "preview") byId("thickness").value = picture.slab.thickness;
  byId("rule-set").value = state.rule_set;
  byId("to-maximum").checked = state.to_maximum;
  showLists();
}

function showLists() {
  const { picture, state } = view;
  const focus = document.activeElement?.dataset?.key;
  swap(byId("details"), details(view, chosen, hands));
  const lists = {
    "list-findings": () => findingsList(picture, choose, chosen),
    "list-panels": () => panelsList(picture, choose, chosen),
    "list-joints": () => jointsList(picture, choose, chosen, state),
    "list-slab": () => slabList(picture, choose, chosen),
  };
  // Only the list that is seen is worth its time while a pointer moves.
  for (const [id, make] of Object.entries(lists)) if (!byId(id).hidden) swap(byId(id), make());
  if (focus) document.querySelector(`[data-key="${CSS.escape(focus)}"]`)?.focus();
}

// What is chosen stays chosen through a change; panels are numbered anew, so a panel is found by its place.
function remember() {
  if (!chosen) return;
  if (chosen.what === "panel") {
    const here = view.picture.panels.find((panel) => near(panel.at, chosen.at));
    chosen = here ? { ...chosen, id: here.id, at: here.at } : null;
  }
  if (chosen?.what === "finding") chosen = null;
  if (chosen?.part && !handlesOf(view.picture, chosen).some((each) => samePart(each, chosen.part))) chosen = { ...chosen, part: null };
  drawing.mark(chosen);
}

function near(a, b) {
  return b && Math.hypot(a[0] - b[0], a[1] - b[1]) < 300;
}

function choose(target, goThere = false) {
  const picture = desk.now.picture;
  chosen = target ? { what: target.what, id: target.id, at: placeOf(picture, target) } : null;
  drawing.mark(chosen);
  if (goThere && chosen?.at) {
    const far = Math.max(picture.bounds[2] - picture.bounds[0], picture.bounds[3] - picture.bounds[1]);
    drawing.camera.goTo(chosen.at, Math.min(far / 2, 4000));
    byId("sheet").scrollIntoView({ block: "nearest" });
  }
  showLists();
}

// Takes hold of one point of what is chosen, or lets go of it.
function pick(part) {
  if (!chosen || samePart(chosen.part ?? undefined, part ?? undefined)) return;
  chosen = { ...chosen, part: part && { kind: part.kind, index: part.index } };
  drawing.mark(chosen);
  showLists();
}

function placeOf(picture, { what, id }) {
  if (what === "panel") return picture.panels.find((each) => each.id === id)?.at;
  if (what === "finding") return picture.findings[Number(id)]?.at;
  const path = {
    joint: () => pointsOf(picture, { what, id }),
    outline: () => pointsOf(picture, { what, id }),
    opening: () => pointsOf(picture, { what, id }),
    wall: () => picture.slab.walls.find((each) => each.id === id)?.path,
    forbidden: () => picture.slab.forbidden.find((each) => each.id === id)?.path,
    "keep-out": () => picture.slab.keepOuts.find((each) => each.id === id)?.outline,
    zone: () => picture.slab.zones.find((each) => each.id === id)?.outline,
    column: () => [picture.slab.columns.find((each) => each.id === id)?.at],
    penetration: () => [picture.slab.penetrations.find((each) => each.id === id)?.at],
  }[what]?.();
  if (!path?.[0]) return undefined;
  const sum = path.reduce(([a, b], [x, y]) => [a + x, b + y], [0, 0]);
  return sum.map((value) => value / path.length);
}

async function act(action) {
  const before = new Set(desk.now.state.joints.map((joint) => joint.id));
  const were = action.what ? pointsOf(desk.now.picture, action) : [];
  const answer = await desk.act(action);
  if (answer && action.do === "add-vertex") {
    const index = pointsOf(answer.picture, action).findIndex(([x, y]) => !were.some((p) => p[0] === x && p[1] === y));
    if (chosen?.what !== action.what || chosen.id !== action.id) choose(action);
    pick({ kind: "vertex", index });
  }
  if (answer && action.what === "opening" && action.do === "add") choose({ what: "opening", id: String(answer.picture.slab.openings.length) });
  if (answer && action.what === "opening" && action.do === "delete") choose(null);
  if (answer && (action.do === "draw" || action.do === "split")) {
    const made = answer.state.joints.find((joint) => !before.has(joint.id));
    if (made) choose({ what: "joint", id: made.id });
  }
  return answer;
}

function showTool(id) {
  for (const tool of TOOLS) byId(`tool-${tool.id}`).setAttribute("aria-pressed", String(tool.id === id));
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
  if (trouble instanceof Conflict) return showConflict(trouble);
  message(trouble instanceof Refused ? trouble.message : trouble.message || String(trouble));
}

function showConflict(trouble) {
  const theirs = el("button", { type: "button", on: { click: () => { byId("message").hidden = true; open(); } } }, "Take the other one");
  const mine = el("button", { type: "button", on: { click: () => keepMine(trouble.which) } }, "Keep this one");
  message(trouble.message, theirs, mine);
}

async function keepMine(which) {
  byId("message").hidden = true;
  await attempt(async () => {
    if (which === "file") await desk.save(true);
    else await desk.keep(true);
  });
}

async function attempt(job) {
  try {
    return await job();
  } catch (trouble) {
    showTrouble(trouble);
    return null;
  }
}

const busy = (words, job) => whileBusy(words, () => attempt(job));

const save = () => attempt(async () => {
  const answer = await desk.save();
  message(`Saved in ${answer.file}.`);
});

async function exportSheets() {
  const answer = await busy("Drawing the sheets", () => ask("export", { state: desk.now.state }));
  if (answer) showExport(answer);
}

async function oneFile() {
  const file = await busy("Making the page", () => askForFile("one-file", { state: desk.now.state }));
  if (!file) return;
  const link = el("a", { href: URL.createObjectURL(file.blob), download: file.name });
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(link.href), 10000);
}

async function compare() {
  const answer = await busy("Looking for other good layouts", () => ask("alternatives", { state: desk.now.state }));
  if (answer) showAlternatives(answer, (one) => desk.step({ state: one.state, picture: one.picture }));
}

async function discard() {
  const sure = await confirmBox("Back to the saved file?", "What was changed since it was saved goes. This cannot be undone.", "Go back");
  if (!sure) return;
  const answer = await busy("Opening", () => desk.write("discard", {}));
  if (answer) begin(answer);
}

const commands = {
  undo: () => attempt(() => desk.undo()),
  redo: () => attempt(() => desk.redo()),
  complete: async () => {
    if (await busy("Completing the rest", () => desk.run("complete"))) choose(null);
  },
  save,
  export: exportSheets,
  "one-file": oneFile,
  alternatives: compare,
  "unpin-all": () => act({ do: "pin", pinned: false }),
  print: () => window.print(),
  keys: () => showKeys(TOOLS),
  discard,
};
for (const [id, action] of Object.entries(commands)) {
  byId(id).addEventListener("click", () => {
    closeMore();
    if (desk.now || id === "keys") action();
  });
}
const importHands = {
  closeMore,
  busy,
  attempt,
  thickness: () => desk.now?.picture.slab.thickness ?? asked?.thickness ?? "",
  take: takeDrawing,
  left: () => {
    if (!desk.now) message("Nothing is open. Load the page again to read the drawing, or import another one under More.");
  },
};
bindImport(byId("import"), byId("file"), byId("sheet"), importHands);

// What a drawing gave becomes the state: the first one where the page was opened on a drawing alone.
function takeDrawing(answer) {
  if (desk.now) desk.step({ state: answer.state, picture: answer.picture });
  else begin({ ...asked, ...answer });
  drawing.camera.fit();
  if (answer.notes.length) message(answer.notes.join("\n"));
}

byId("zoom-in").addEventListener("click", () => drawing.camera.zoom(1.4));
byId("zoom-out").addEventListener("click", () => drawing.camera.zoom(1 / 1.4));
byId("fit").addEventListener("click", () => drawing.camera.fit());
byId("thickness").addEventListener("change", (event) => act({ do: "thickness", text: event.target.value }));
const chooseRules = () => act({ do: "rules", set: byId("rule-set").value, to_maximum: byId("to-maximum").checked });
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
  closeMore();
  byId("more").focus();
});

// Keys that work on the drawing.
function shortcut(event) {
  const tool = TOOLS.find((each) => each.key === event.key.toLowerCase());
  const joint = chosen?.what === "joint" ? desk.now.state.joints.find((each) => each.id === chosen.id) : null;
  const remove = event.key === "Delete" || event.key === "Backspace";
  if (remove && chosen?.part?.kind === "vertex") act({ do: "remove-vertex", what: chosen.what, id: chosen.id, index: chosen.part.index });
  else if (remove && chosen && !["panel", "finding", "outline"].includes(chosen.what)) act({ do: "delete", what: chosen.what, id: chosen.id });
  else if (event.key === "p" && joint) act({ do: "pin", id: joint.id, pinned: !joint.pinned });
  else if (event.key === "f" && joint) act({ do: "forbid", id: joint.id });
  else if (tool) tools.take(tool.id);
  else return false;
  return true;
}

// Keys that work everywhere but in a field.
document.addEventListener("keydown", (event) => {
  if (!(event.ctrlKey || event.metaKey)) return;
  const key = event.key.toLowerCase();
  const typing = event.target.matches?.("input, textarea");
  if (!desk.now) return;
  const todo = key === "s" ? save : typing ? null : key === "z" && !event.shiftKey ? commands.undo : key === "y" || (key === "z" && event.shiftKey) ? commands.redo : null;
  if (!todo) return;
  event.preventDefault();
  todo();
});
window.addEventListener("beforeunload", () => desk.keepNow());

// The answer to "open": a state, or a drawing of which the user must say what it holds.
let asked = null;
async function open() {
  document.querySelector("main").inert = !desk.now;
  asked = await busy("Laying out", () => ask("open"));
  if (!asked) return;
  if (asked.drawing) askAbout(asked.drawing, importHands, (unit) => ask("look-again", { name: asked.drawing.name, unit }));
  else begin(asked);
  if (asked.restored) message(asked.restored);
}

function begin(answer) {
  document.querySelector("main").inert = false;
  swap(byId("rule-set"), answer.ruleSets.map((set) => el("option", { value: set.name, title: set.title }, set.name)));
  desk.begin(answer);
}

open();
