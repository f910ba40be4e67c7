// The one-file page: reads, measures and ticks off; changes nothing.

import { byId, el, swap } from "./dom.js";
import { lengthText } from "./lengths.js";
import { Drawing } from "./drawing.js";
import { bindTabs, panelsList, totalsLine } from "./lists.js";
import { findingsList, newSeen } from "./findings.js";
import { Selection } from "./selection.js";
import { details } from "./details.js";
import { Gestures } from "./gestures.js";
import { showTool, toolbar } from "./tools.js";
import { Ticks } from "./ticks.js";

const READER_TOOLS = ["choose", "measure"];

const picture = JSON.parse(byId("data").textContent);
const readerDrawing = new Drawing(byId("drawing"));
const ticks = new Ticks(`kerfline cuts ${picture.key}`);
const seenHere = newSeen();
const shown = { picture, state: null };
const selection = new Selection(() => chosen());

const readerTools = new Gestures(readerDrawing, {
  canEdit: false,
  view: () => shown,
  selection,
  choose: pickOne,
  menu: () => {},
  pick: () => {},
  act: () => {},
  preview: () => {},
  drop: () => {},
  hint: (words) => swap(byId("hint"), words),
  tool: (id) => showTool(id, READER_TOOLS),
  tip: () => {},
  length: (mm) => lengthText(mm, picture.display),
  key: () => false,
});

function pickOne(target, goThere = false) {
  selection.only(target);
  if (!goThere || !target) return;
  const at = pickPlace(target);
  const far = Math.max(picture.bounds[2] - picture.bounds[0], picture.bounds[3] - picture.bounds[1]);
  if (at) readerDrawing.camera.goTo(at, Math.min(far / 2, 4000));
  byId("sheet").scrollIntoView({ block: "nearest" });
}

function chosen() {
  readerDrawing.mark(selection.items);
  showReader();
}

function pickPlace({ what: kind, id }) {
  if (kind === "panel") return picture.panels.find((each) => each.id === id)?.at;
  if (kind === "finding") return picture.findings[Number(id)]?.at;
  const path = picture.joints.find((each) => each.id === id)?.path;
  return path && path[0].map((value, axis) => (value + path[path.length - 1][axis]) / 2);
}

function showReader() {
  swap(byId("details"), details(shown, selection, null));
  swap(byId("list-cuts"), cutsList());
  swap(byId("list-panels"), panelsList(picture, pickOne, selection));
  swap(byId("list-findings"), findingsList(picture, pickOne, selection, seenHere, showReader));
  for (const node of byId("drawing").querySelectorAll(".joint")) node.classList.toggle("done", ticks.has(node.dataset.id));
}

function cutsList() {
  const cuts = picture.joints.filter((each) => picture.cuts.includes(each.id));
  const done = cuts.filter((each) => ticks.has(each.id)).length;
  return [
    el("p", { class: "progress", role: "status" }, `${done} of ${cuts.length} cuts done`),
    ticks.lasting ? null : el("p", { class: "empty" }, "This browser does not keep the ticks when the page is closed."),
    el("ul", {}, cuts.map(cutRow)),
  ].filter(Boolean);
}

function cutRow(joint) {
  const box = el("input", { type: "checkbox", id: `cut-${joint.id}`, on: { change: () => tickCut(joint.id, box.checked) } });
  box.checked = ticks.has(joint.id);
  const words = `${joint.id}: ${joint.length}${joint.depth ? `, ${joint.depth} deep` : ""}${joint.hidden ? `, ${joint.hidden} under walls` : ""}`;
  return el("li", { class: box.checked ? "cut done" : "cut" },
    el("label", { for: `cut-${joint.id}` }, box, el("span", {}, words)),
    el("button", { type: "button", "aria-label": `Show ${joint.id}`, on: { click: () => pickOne({ what: "joint", id: joint.id }, true) } }, "Show"));
}

function tickCut(id, on) {
  ticks.set(id, on);
  showReader();
  byId(`cut-${id}`)?.focus();
}

document.title = `${picture.job}: joints`;
swap(byId("job-name"), picture.job);
swap(byId("facts"), `${picture.slab.thickness} slab, rule set ${picture.rules.set}`);
swap(byId("tools"), toolbar((id) => readerTools.take(id), READER_TOOLS));
totalsLine(byId("totals"), picture.totals, picture.rules);
bindTabs(document.querySelector(".tabs"));
byId("zoom-in").addEventListener("click", () => readerDrawing.camera.zoom(1.4));
byId("zoom-out").addEventListener("click", () => readerDrawing.camera.zoom(1 / 1.4));
byId("fit").addEventListener("click", () => readerDrawing.camera.fit());
readerDrawing.draw(picture);
showReader();
document.addEventListener("keydown", (event) => {
  if (!event.ctrlKey && !event.altKey && !event.target.closest("input, [role=tab]") && readerTools.key(event)) event.preventDefault();
});
