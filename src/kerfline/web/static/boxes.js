// Boxes that open over the page.

import { byId, el, swap } from "./dom.js";
import { Drawing } from "./drawing.js";
import { button } from "./controls.js";

function open(title, ...children) {
  const box = byId("dialog");
  swap(box, el("h2", { id: "dialog-title" }, title), ...children);
  box.addEventListener("close", () => box.open || swap(box), { once: true });
  box.showModal();
  return box;
}

const closeButton = (words = "Close") => button(words, () => byId("dialog").close());

export function ask(title, words, yes) {
  return new Promise((done) => {
    let sure = false;
    const box = open(title, el("p", {}, words), el("div", { class: "row" }, closeButton("Cancel"), button(yes, () => { sure = true; box.close(); }, { class: "main" })));
    box.addEventListener("close", () => done(sure), { once: true });
  });
}

export function showExport(answer) {
  open("Sheets written", el("p", {}, `In ${answer.folder}:`), el("ul", {}, answer.files.map((name) => el("li", {}, name))), el("div", { class: "row" }, closeButton()));
}

export function showKeys(tools) {
  const rows = [
    ...tools.map((tool) => [tool.key.toUpperCase(), tool.name]),
    ["Arrows", "Move what is chosen, or its point that is taken hold of, by one step; else the view"],
    ["Shift + arrows", "The same, twelve steps"],
    ["Arrows, Enter", "With a tool: move the cross, tap there"],
    ["Tab", "From the drawing to the points of what is chosen"],
    ["Delete", "Delete what is chosen, or its knee or corner that is taken hold of"],
    ["P, F", "Pin or forbid the chosen joint"],
    ["+ − 0", "Zoom in, zoom out, show all"],
    ["Esc", "Let go; while dragging, put it back"],
    ["Ctrl + Z, Ctrl + Y", "Undo, redo"],
    ["Ctrl + S", "Save"],
    ["Alt while dragging", "Whole inches only, nothing else attracts"],
  ];
  open("Keys", el("p", {}, "They work while the drawing has the focus."), el("table", {}, el("tbody", {}, rows.map(([key, words]) => el("tr", {}, el("td", {}, el("kbd", {}, key)), el("td", {}, words))))), el("div", { class: "row" }, closeButton()));
}

export function showAlternatives(answer, take) {
  if (!answer.layouts.length) {
    open("Alternatives", el("p", {}, answer.why || "There is no other good layout."), el("div", { class: "row" }, closeButton()));
    return;
  }
  const drawings = [];
  const box = open("Alternatives", el("p", {}, "Each keeps what is pinned. Taking one can be undone."),
    el("div", { class: "choicesgrid" }, answer.layouts.map((one) => card(one, drawings, () => { take(one); box.close(); }))),
    el("div", { class: "row" }, closeButton()));
  for (const [drawing, one] of drawings) drawing.draw(one.picture, { state: one.state });
}

function card(one, drawings, use) {
  const svg = document.createElementNS("http://www.w3.org/2000/svg", "svg");
  svg.setAttribute("class", "drawing small");
  svg.setAttribute("role", "img");
  svg.setAttribute("aria-label", one.name);
  const node = el("div", { class: "card" }, el("h3", {}, one.name), svg, el("p", {}, one.words), button("Use this one", use));
  drawings.push([new Drawing(svg), one]);
  return node;
}
