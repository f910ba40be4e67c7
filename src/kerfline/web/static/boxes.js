// Boxes that open over the page.

import { byId, el, swap } from "./dom.js";
import { Drawing } from "./drawing.js";
import { button } from "./controls.js";

export function openBox(title, ...children) {
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
    const box = openBox(title, el("p", {}, words), el("div", { class: "row" }, closeButton("Cancel"), button(yes, () => { sure = true; box.close(); }, { class: "main" })));
    box.addEventListener("close", () => done(sure), { once: true });
  });
}

export function showExport(answer) {
  openBox("Sheets written", el("p", {}, `In ${answer.folder}:`), el("ul", {}, answer.files.map((name) => el("li", {}, name))), el("div", { class: "row" }, closeButton()));
}

export function showKeys(tools) {
  const rows = [
    ...tools.map((tool) => [tool.key.toUpperCase(), tool.name]),
    ["Arrows", "Move what is chosen, or its chosen point, by one step; with nothing chosen, the view"],
    ["Shift + arrows", "The same, twelve steps"],
    ["E", "With a tool: type a place or legs, such as at 12, 8 right 10; Esc leads back to the drawing"],
    ["Arrows, Enter", "With a tool: move the cross, tap there"],
    ["Enter", "Close the area that is being drawn"],
    ["Backspace", "While drawing: take the last point back"],
    ["Tab", "From the drawing to the points of what is chosen"],
    ["Delete", "Delete what is chosen, or its chosen bend or corner"],
    ["P, F", "Pin or forbid the chosen joint"],
    ["Ctrl + C, Ctrl + V", "Copy what is chosen, put the copy down beside it"],
    ["Ctrl + A", "Choose everything on the slab"],
    ["Menu key, Shift + F10", "What can be done with what is chosen"],
    ["+ − 0", "Zoom in, zoom out, show all"],
    ["Esc", "Leave the tool and choose nothing; while dragging, put it back"],
    ["Ctrl + Z, Ctrl + Y", "Undo, redo"],
    ["Ctrl + S, Ctrl + Shift + S", "Save, save under another name"],
    ["Shift + tap, Shift + drag", "Choose several, or all in a box"],
    ["Alt while dragging", "Whole inches only, nothing else attracts"],
  ];
  openBox("Keys", el("p", {}, "They work wherever the focus is, but in a field."), el("table", {}, el("tbody", {}, rows.map(([key, words]) => el("tr", {}, el("td", {}, el("kbd", {}, key)), el("td", {}, words))))), el("div", { class: "row" }, closeButton()));
}

// Asks how far, to which side and how often what is chosen is repeated; null where the user thinks better of it.
export function askRepeat(what, unit) {
  return new Promise((done) => {
    let answer = null;
    const step = el("input", { id: "repeat-step", autocomplete: "off", required: true });
    const way = el("select", { id: "repeat-way" }, ["right", "left", "up", "down"].map((each) => el("option", {}, each)));
    const times = el("input", { id: "repeat-times", type: "number", min: 1, max: 200, value: 1 });
    const form = el("form", { method: "dialog", on: { submit: () => { answer = { text: step.value, way: way.value, times: Number(times.value) || 1 }; } } },
      el("div", { class: "row fields" },
        el("label", { for: "repeat-step" }, `Every (${unit})`, step),
        el("label", { for: "repeat-way" }, "To the side", way),
        el("label", { for: "repeat-times" }, "Times", times)),
      el("div", { class: "row" }, closeButton("Cancel"), el("button", { class: "main" }, "Repeat")));
    const box = openBox(`Repeat ${what}`, form);
    box.addEventListener("close", () => done(answer), { once: true });
    step.focus();
  });
}

// Asks for another name and says where the file will be; null where the user thinks better of it.
export function askName(name, folder, file) {
  return new Promise((done) => {
    let answer = null;
    const input = el("input", { id: "new-name", autocomplete: "off", required: true, maxlength: 120, value: name });
    const form = el("form", { method: "dialog", on: { submit: () => { answer = input.value; } } },
      el("div", { class: "row fields" }, el("label", { for: "new-name" }, "Name", input)),
      el("p", {}, `The job file of that name is made in ${folder}, and work goes on there. ${file} stays as it was last saved.`),
      el("div", { class: "row" }, closeButton("Cancel"), el("button", { class: "main" }, "Save")));
    const box = openBox("Save under another name", form);
    box.addEventListener("close", () => done(answer), { once: true });
    input.focus();
    input.select();
  });
}

// Asks for columns on a grid; null where the user thinks better of it.
export function askColumns(unit) {
  return new Promise((done) => {
    let answer = null;
    const fields = [["at-x", `First from the left (${unit})`], ["at-y", `First from the bottom (${unit})`], ["every-x", `Every, to the right (${unit})`], ["times-x", "How many to the right"], ["every-y", `Every, upwards (${unit})`], ["times-y", "How many upwards"]];
    const inputs = Object.fromEntries(fields.map(([id]) => [id, el("input", { id: `grid-${id}`, autocomplete: "off", required: !id.startsWith("every"), ...(id.startsWith("times") ? { type: "number", min: 1, max: 100, value: 1 } : {}) })]));
    const take = () => {
      const text = (id) => inputs[id].value;
      answer = { do: "column-grid", at: [text("at-x"), text("at-y")], every: [text("every-x"), text("every-y")], times: [Number(text("times-x")), Number(text("times-y"))] };
    };
    const box = openBox("Columns on a grid", el("form", { method: "dialog", on: { submit: take } },
      el("div", { class: "row fields" }, fields.map(([id, words]) => el("label", { for: `grid-${id}` }, words, inputs[id]))),
      el("div", { class: "row" }, closeButton("Cancel"), el("button", { class: "main" }, "Add the columns"))));
    box.addEventListener("close", () => done(answer), { once: true });
    inputs["at-x"].focus();
  });
}

export function showNotes(title, notes) {
  openBox(title, el("ul", { class: "notes", tabindex: 0 }, notes.map((note) => el("li", {}, note))), el("div", { class: "row" }, closeButton()));
}

// The present layout stands first; under each of the others it lies faintly, so that what differs is seen.
export function showAlternatives(answer, now, take) {
  if (!answer.layouts.length) {
    openBox("Alternatives", el("p", {}, answer.why || "There is no other good layout."), el("div", { class: "row" }, closeButton()));
    return;
  }
  const drawings = [];
  const present = { name: "As it is now", words: now.picture.totals.words, ...now };
  const box = openBox("Alternatives", el("p", {}, "Each keeps what is pinned. The wide faint lines are the joints as they are now. Taking one can be undone."),
    el("div", { class: "choicesgrid" },
      card(present, drawings, null, null),
      answer.layouts.map((one) => card(one, drawings, now.picture, () => { take(one); box.close(); }))),
    el("div", { class: "row" }, closeButton()));
  for (const [drawing, one, under] of drawings) {
    drawing.draw(one.picture, { state: one.state });
    if (under) drawing.compare(under);
  }
}

function card(one, drawings, under, use) {
  const svg = document.createElementNS("http://www.w3.org/2000/svg", "svg");
  svg.setAttribute("class", "drawing small");
  svg.setAttribute("role", "img");
  svg.setAttribute("aria-label", `${one.name}: ${one.words}`);
  const node = el("div", { class: `card${use ? "" : " present"}` }, el("h3", {}, one.name), svg, el("p", {}, one.words), use ? button("Use this one", use) : null);
  drawings.push([new Drawing(svg), one, under]);
  return node;
}
