// Brings a drawing in: shows its layers in colours of our own, asks what each is and which unit it is in.

import { byId, el, shape, swap } from "./dom.js";
import { button } from "./controls.js";
import { pathData } from "./shapes.js";
import { ask, sendFile } from "./server.js";
import { isPicture } from "./tracing.js";

const ROLES = [
  ["", "not used"],
  ["outline", "outline"],
  ["openings", "openings"],
  ["walls", "walls"],
  ["columns", "columns"],
  ["penetrations", "drains and pipes"],
  ["keep_outs", "keep-outs"],
  ["joints", "joints"],
];
const COLOURS = 10;
const UNIT_NAMES = { ft: "feet", in: "inches", m: "metres", mm: "millimetres" };
// A car as a yardstick, mm.
const CAR = [4600, 1800];

export function bindImport(choose, file, sheet, hands) {
  choose.addEventListener("click", () => {
    hands.closeMore();
    file.click();
  });
  file.addEventListener("change", () => {
    if (file.files[0]) bring(file.files[0], hands);
    file.value = "";
  });
  sheet.addEventListener("dragover", (event) => event.preventDefault());
  sheet.addEventListener("drop", (event) => {
    event.preventDefault();
    const dropped = event.dataTransfer.files[0];
    if (dropped) bring(dropped, hands);
  });
}

async function bring(blob, hands) {
  if (await isPicture(blob)) {
    hands.trace(blob);
    return;
  }
  const said = new URLSearchParams();
  if (await isPdf(blob)) {
    const page = await askForPage();
    if (!page) return;
    for (const [key, text] of Object.entries(page)) if (text) said.set(key, text);
  }
  const seen = await hands.busy("Reading the drawing", (signal) => sendFile(`import/look?${said}`, blob, signal));
  if (seen) askAbout(seen, hands, (unit) => ask("look-again", { name: seen.name, unit }));
}

const isPdf = async (blob) => (await blob.slice(0, 1024).text()).includes("%PDF-");

// Which page holds the plan and how it is scaled; null where the user changes his mind.
function askForPage() {
  return new Promise((done) => {
    const box = byId("dialog");
    const page = el("input", { id: "pdf-page", inputmode: "numeric", autocomplete: "off", value: "1" });
    const scale = el("input", { id: "pdf-scale", autocomplete: "off", placeholder: "1/8 in = 1 ft, or 1:100" });
    let answer = null;
    const take = () => { answer = { page: page.value.trim(), scale: scale.value.trim() }; };
    swap(box, el("h2", { id: "dialog-title" }, "A page of a PDF"),
      el("form", { method: "dialog", on: { submit: take } },
        el("div", { class: "row fields" }, el("label", { for: "pdf-page" }, "Page that holds the plan", page), el("label", { for: "pdf-scale" }, "Scale, where the page does not say it", scale)),
        el("div", { class: "row" }, button("Cancel", () => box.close()), el("button", { class: "main" }, "Read it"))));
    box.addEventListener("close", () => { swap(box); done(answer); }, { once: true });
    box.showModal();
    page.focus();
  });
}

export function askAbout(seen, hands, again) {
  const state = {
    seen,
    // Where the drawing leaves its unit open, only the user can say it.
    unit: seen.known ? seen.unit : "",
    slab: seen.slab,
    roles: new Map(seen.layers.map((layer) => [layer.name, layer.role])),
    thickness: hands.thickness(),
  };
  const box = byId("dialog");
  const show = () => swap(box, ...parts(state, hands, again, show, box));
  show();
  if (box.open) return;
  box.addEventListener("close", () => box.open || swap(box), { once: true });
  box.showModal();
}

function parts(state, hands, again, show, box) {
  const { seen } = state;
  const map = shape("svg", { class: "map", role: "img", "aria-label": "The drawing, each layer in its colour" });
  const pickCandidate = (number) => { state.slab = number; show(); };
  drawMap(map, state, pickCandidate);
  const trouble = el("p", { role: "alert", class: "trouble" });
  const thickness = el("input", { id: "import-thickness", value: state.thickness, autocomplete: "off", on: { input: () => (state.thickness = thickness.value) } });
  const changeUnit = async (unit) => {
    const next = await hands.attempt(() => again(unit));
    if (next) Object.assign(state, { seen: { ...next, declared: seen.declared }, unit, slab: next.slab });
    show();
    box.querySelector("input[name=unit]:checked")?.focus();
  };
  return [
    el("h2", { id: "dialog-title" }, "A drawing"),
    unitQuestion(state, changeUnit),
    candidateQuestion(state, () => { drawMap(map, state, pickCandidate); show(); }),
    map,
    el("p", {}, "Say what each layer is. What is not used is left out."),
    layerTable(state, () => drawMap(map, state, pickCandidate)),
    el("p", {}, el("label", { for: "import-thickness" }, `Slab thickness (${state.seen.depthUnit}) `), thickness),
    seen.notes.length ? el("details", {}, el("summary", {}, "How it was read"), el("ul", { class: "notes", tabindex: 0 }, seen.notes.map((note) => el("li", {}, note)))) : null,
    trouble,
    el("div", { class: "row" },
      button("Cancel", () => { box.close(); hands.left(); }),
      button("Take it", () => take(state, hands, box, trouble), { class: "main", disabled: !state.unit })),
  ];
}

async function take(state, hands, box, trouble) {
  swap(trouble);
  const roles = Object.fromEntries([...state.roles].filter(([, role]) => role));
  const said = { name: state.seen.name, unit: state.unit, roles, thickness: state.thickness, slab: state.slab };
  try {
    const answer = await ask("import/take", said);
    box.close();
    hands.take(answer);
  } catch (refused) {
    swap(trouble, refused.message);
    trouble.scrollIntoView({ block: "nearest" });
  }
}

function layerTable(state, redraw) {
  const row = (layer, index) => {
    const select = el("select", { id: `layer-${index}`, on: { change: () => { state.roles.set(layer.name, select.value); redraw(); } } },
      ROLES.map(([role, words]) => el("option", { value: role, selected: state.roles.get(layer.name) === role }, words)));
    const words = `${layer.count} ${layer.count === 1 ? "curve" : "curves"}${layer.hidden ? ", off in the drawing" : ""}`;
    return el("tr", {}, el("td", {}, el("label", { for: `layer-${index}` }, el("span", { class: `swatch layer-${index % COLOURS}` }), layer.name)), el("td", {}, words), el("td", {}, select));
  };
  return el("table", {}, el("thead", {}, el("tr", {}, el("th", {}, "Layer"), el("th", {}, "Holds"), el("th", {}, "It is"))), el("tbody", {}, state.seen.layers.map(row)));
}

// Which figure is the slab: by its number here, or by a tap on the drawing.
function candidateQuestion(state, redraw) {
  const { candidates } = state.seen;
  if (!candidates.length) return null;
  const radio = (number, words) => el("label", { class: "candidate" }, el("input", { type: "radio", name: "slab", value: number, checked: state.slab === number, on: { change: () => { state.slab = number; redraw(); } } }), ` ${words}`);
  return el("fieldset", { class: "units" },
    el("legend", {}, state.seen.slab ? "The slab" : "Which of these is the slab?"),
    candidates.map((each) => radio(each.number, each.words)),
    radio(0, "the layer that is said to be the outline"));
}

function candidateShapes({ seen, slab }, pick, size) {
  return seen.candidates.map((each) => {
    const [x, y] = each.label;
    const edges = [each.ring, ...each.courts].map((ring) => pathData(ring, true)).join("");
    const label = shape("text", { x, y: -y, "font-size": size }, each.number);
    return shape("g", { class: `candidate${each.number === slab ? " chosen" : ""}`, "data-number": each.number, on: { click: () => pick(each.number) } }, shape("path", { d: edges, "fill-rule": "evenodd" }), label);
  });
}

function drawMap(map, state, pick) {
  const { seen, roles } = state;
  const points = seen.layers.flatMap((layer) => layer.paths.flat());
  if (!points.length) return;
  const xs = points.map((p) => p[0]);
  const ys = points.map((p) => p[1]);
  const [x0, x1, y0, y1] = [least(xs), most(xs), least(ys), most(ys)];
  const pad = Math.max(x1 - x0, y1 - y0, 1) / 30;
  map.setAttribute("viewBox", `${x0 - pad} ${-y1 - pad} ${x1 - x0 + 2 * pad} ${y1 - y0 + 2 * pad}`);
  swap(map, candidateShapes(state, pick, pad), seen.layers.map((layer, index) =>
    shape("path", { class: `layer-${index % COLOURS}${roles.get(layer.name) ? "" : " unused"}`, d: layer.paths.map((path) => pathData(path)).join("") })));
}

const least = (values) => values.reduce((a, b) => Math.min(a, b), Infinity);
const most = (values) => values.reduce((a, b) => Math.max(a, b), -Infinity);

function unitQuestion(state, change) {
  const { seen } = state;
  const said = seen.declared ? `The drawing says ${seen.declared}.` : "The drawing does not say its unit, or says one that cannot be right.";
  return el("fieldset", { class: "units" },
    el("legend", {}, "In which unit is it drawn?"),
    el("p", {}, `${said} Each picture shows the drawing beside a car.`),
    el("div", { class: "choicesgrid" }, seen.units.map((each) => unitCard(each, state, change))));
}

function unitCard(each, state, change) {
  const radio = el("input", { type: "radio", name: "unit", value: each.unit, checked: each.unit === state.unit, on: { change: () => change(each.unit) } });
  return el("label", { class: "card" }, el("span", {}, radio, ` ${UNIT_NAMES[each.unit]}: ${each.text}`), yardstick(each), each.likely ? null : el("small", {}, "an unusual size for a slab"));
}

// The drawing's extent and a car at one scale; what would be smaller than a dot is a dot.
function yardstick({ width, height }) {
  const [long, high] = [Math.max(width, CAR[0]), Math.max(height, CAR[1])];
  const [w, h] = [long * 1.1, high * 1.1];
  const dot = Math.max(long, high) / 60;
  const rect = (cls, x, y, a, b) => shape("rect", { class: cls, x, y, width: Math.max(a, dot), height: Math.max(b, dot), rx: cls === "car" ? Math.max(a, dot) / 8 : 0 });
  return shape("svg", { class: "yardstick", viewBox: `${-w * 0.05} ${-h * 0.05} ${w + w * 0.05} ${h + h * 0.05}`, "aria-hidden": "true" },
    rect("extent", 0, 0, width, height), rect("car", Math.min(width, long) * 0.04, Math.min(height, high) * 0.04, CAR[0], CAR[1]));
}
