// Buttons and fields; each keeps its focus through a change by its words.

import { el } from "./dom.js";

export function button(words, action, attributes = {}) {
  return el("button", { type: "button", "data-key": `do ${words}`, ...attributes, on: { click: action } }, words);
}

export function choice(words, options, value, action) {
  const select = el("select", { "data-key": `do ${words}`, on: { change: () => action(select.value) } }, options.map((each) => el("option", { value: each, selected: each === value }, each)));
  return el("label", {}, words, select);
}

export function tick(words, on, action) {
  const box = el("input", { type: "checkbox", checked: on, "data-key": `do ${words}`, on: { change: () => action(box.checked) } });
  return el("label", {}, box, words);
}

export function field(words, value, action) {
  const input = el("input", { value, autocomplete: "off", spellcheck: "false", "data-key": `do ${words}`, on: { change: () => action(input.value) } });
  return el("label", {}, words, input);
}
