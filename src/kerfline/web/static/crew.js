// The crew's page: the cuts in their order, one large, ticked off by a thumb. Reads and measures; changes nothing.

import { Awake } from "./awake.js";
import { cutRow, cutWords, measures } from "./crew_cut.js";
import { details } from "./details.js";
import { byId, el, swap } from "./dom.js";
import { Drawing } from "./drawing.js";
import { Gestures } from "./gestures.js";
import { boxOf } from "./grid.js";
import { lengthText } from "./lengths.js";
import { totalsLine } from "./lists.js";
import { Selection } from "./selection.js";
import { Ticks } from "./ticks.js";
import { showTool, toolbar } from "./tools.js";

const TOOLS_HERE = ["choose", "measure"];
const NIGHT = "kerfline night";

const picture = JSON.parse(byId("data").textContent);
const drawing = new Drawing(byId("drawing"));
const ticks = new Ticks(`kerfline cuts ${picture.key}`);
const cuts = picture.sections.flatMap((section, index) => section.cuts.map((cut) => ({ cut, section, id: `${index}-${cut.number}-${cut.joint}-${cut.start}` })));
const selection = new Selection(chosen);
const shown = { picture, state: null };
let now = Math.max(cuts.findIndex((each) => !ticks.has(each.id)), 0);

drawing.nameOf = (joint) => {
  const numbers = cuts.filter((each) => each.cut.joint === joint.id).map((each) => each.cut.number);
  return numbers.length ? `${[...new Set(numbers)].join(", ")} · ${joint.id}` : joint.id;
};

const gestures = new Gestures(drawing, {
  canEdit: false,
  selection,
  view: () => shown,
  choose,
  menu: () => {},
  act: () => {},
  preview: () => {},
  drop: () => {},
  step: () => {},
  hint: (words) => swap(byId("hint"), words),
  tool: (id) => showTool(id, TOOLS_HERE),
  tip: () => {},
  length: (mm) => lengthText(mm, picture.display),
});

// A tap on a joint is a tap on its next cut; anything else only tells what it is.
function choose(target) {
  if (target?.what === "joint") {
    const mine = cuts.map((each, index) => ({ ...each, index })).filter((each) => each.cut.joint === target.id);
    const next = mine.find((each) => !ticks.has(each.id)) ?? mine[0];
    if (next) go(next.index, false);
  }
  selection.only(target?.what === "finding" ? null : target);
}

function chosen() {
  drawing.mark(selection.items);
  swap(byId("details"), selection.one && selection.one.what !== "joint" ? details(shown, selection, null) : []);
}

function go(index, look = true) {
  if (!cuts.length) return;
  now = Math.max(0, Math.min(index, cuts.length - 1));
  show();
  if (look) lookAt(cuts[now]);
}

// The cut and the corner that it is measured from, as large as they go.
function lookAt({ cut, section }) {
  const [x0, y0, x1, y1] = boxOf([...cut.path, section.origin]);
  const pad = Math.max(x1 - x0, y1 - y0) * 0.08 + 300;
  drawing.camera.fitting([x0 - pad, y0 - pad, x1 + pad, y1 + pad], 30);
  drawing.camera.fitted = false;
}

function show() {
  const here = cuts[now];
  swap(byId("present"), here ? cutWords(here.cut, here.section) : el("p", {}, "There is nothing to saw here."));
  byId("back").disabled = now === 0;
  byId("next").disabled = now >= cuts.length - 1;
  byId("done").disabled = !here;
  swap(byId("done"), here && ticks.has(here.id) ? "Not done" : "Done");
  swap(byId("list-cuts"), list());
  progress();
  // The drawing shows what is done and what is at hand.
  for (const node of drawing.layers.joints.querySelectorAll(".joint")) {
    const mine = cuts.filter((each) => each.cut.joint === node.dataset.id);
    node.classList.toggle("done", mine.length > 0 && mine.every((each) => ticks.has(each.id)));
    node.classList.toggle("now", here?.cut.joint === node.dataset.id);
  }
  swap(drawing.layers.measures, here ? measures(here.cut, here.section) : []);
}

function progress() {
  const sum = (some) => some.reduce((total, each) => total + each.cut.mm, 0);
  const done = cuts.filter((each) => ticks.has(each.id));
  const left = cuts.filter((each) => !ticks.has(each.id));
  const next = left.filter((each) => each.cut.closes !== null).sort((a, b) => a.cut.closes - b.cut.closes)[0];
  const words = [
    `${done.length} of ${cuts.length} cuts done`,
    `${runText(sum(done))} done, ${runText(sum(left))} left`,
    next ? `next to close: cut ${next.cut.number}, ${next.cut.window}` : "",
    ticks.lasting ? "" : "this browser does not keep the ticks when the page is closed",
  ];
  swap(byId("progress"), words.filter(Boolean).join("; "));
  byId("meter").firstElementChild.style.width = `${cuts.length ? (100 * sum(done)) / sum(cuts) : 0}%`;
  byId("meter").setAttribute("aria-label", words[0]);
}

function runText(mm) {
  return picture.display === "metric" ? `${(mm / 1000).toFixed(1)} m` : `${Math.round(mm / 304.8)} ft`;
}

function list() {
  return picture.sections.map((section) => [
    section.name ? el("h3", {}, section.name) : null,
    el("ul", {}, cuts.map((each, index) => ({ ...each, index })).filter((each) => each.section === section).map(row)),
  ]).flat().filter(Boolean);
}

function row({ cut, id, index }) {
  const box = el("input", { type: "checkbox", id: `cut-${index}`, on: { change: () => tick(index, box.checked) } });
  box.checked = ticks.has(id);
  return el("li", { class: `cut${box.checked ? " done" : ""}${index === now ? " now" : ""}` },
    el("label", { for: `cut-${index}` }, box, el("span", {}, cutRow(cut))),
    el("button", { type: "button", "aria-label": `Show cut ${cut.number}`, on: { click: () => go(index) } }, "Show"));
}

function tick(index, on) {
  ticks.set(cuts[index].id, on);
  show();
  byId(`cut-${index}`)?.focus({ preventScroll: true });
}

// Done goes on to the next cut that is not done yet.
function thumbDone() {
  const { id } = cuts[now];
  const on = !ticks.has(id);
  ticks.set(id, on);
  const after = cuts.findIndex((each, index) => index > now && !ticks.has(each.id));
  const next = after >= 0 ? after : cuts.findIndex((each) => !ticks.has(each.id));
  go(on && next >= 0 ? next : now);
}

function night(on) {
  document.body.classList.toggle("night", on);
  byId("night").setAttribute("aria-pressed", String(on));
  try {
    localStorage.setItem(NIGHT, on ? "1" : "");
  } catch {
    // Then it is asked again the next time.
  }
}

document.title = `${picture.job}: cuts`;
swap(byId("job-name"), picture.job);
swap(byId("facts"), `${picture.slab.thickness} slab, run mark ${picture.mark}`);
swap(byId("tools"), toolbar((id) => gestures.take(id), TOOLS_HERE));
totalsLine(byId("totals"), picture.totals, picture.rules);
byId("zoom-in").addEventListener("click", () => drawing.camera.zoom(1.4));
byId("zoom-out").addEventListener("click", () => drawing.camera.zoom(1 / 1.4));
byId("fit").addEventListener("click", () => drawing.camera.fit());
byId("back").addEventListener("click", () => go(now - 1));
byId("next").addEventListener("click", () => go(now + 1));
byId("done").addEventListener("click", thumbDone);
byId("print").addEventListener("click", () => window.print());
byId("night").addEventListener("click", () => night(!document.body.classList.contains("night")));
document.addEventListener("keydown", (event) => {
  if (!event.ctrlKey && !event.altKey && !event.target.closest("input, button") && gestures.key(event)) event.preventDefault();
});
let wasNight = false;
try {
  wasNight = Boolean(localStorage.getItem(NIGHT));
} catch {
  // No storage: it begins as the tablet is set.
}
if (wasNight) night(true);
window.addEventListener("beforeprint", () => drawing.camera.fit());
drawing.draw(picture);
show();
if (cuts.length) lookAt(cuts[now]);
new Awake((words) => swap(byId("awake"), words));
