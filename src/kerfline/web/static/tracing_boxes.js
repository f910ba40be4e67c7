// What is asked about the picture under the drawing.

import { byId, el, swap } from "./dom.js";
import { openBox } from "./boxes.js";
import { button } from "./controls.js";

// A box with fields that stays open until what stands in them can be done; null where the user thinks better of it.
function asking(title, words, fields, go, tryIt) {
  return new Promise((done) => {
    let answer = null;
    const trouble = el("p", { class: "trouble", role: "alert" });
    const submit = async (event) => {
      event.preventDefault();
      try {
        answer = await tryIt();
        byId("dialog").close();
      } catch (refused) {
        swap(trouble, refused.message);
      }
    };
    const box = openBox(title, el("form", { on: { submit } },
      el("p", {}, words),
      el("div", { class: "row fields" }, fields),
      trouble,
      el("div", { class: "row" }, button("Cancel", () => byId("dialog").close()), el("button", { class: "main" }, go))));
    box.addEventListener("close", () => done(answer), { once: true });
    box.querySelector("input")?.focus();
  });
}

const labelled = (words, input) => el("label", { for: input.id }, words, input);
const length = (id) => el("input", { id, autocomplete: "off", spellcheck: "false", required: true });

export function askScale(unit, tryIt) {
  const text = length("scale-length");
  const ways = [["", "as it lies"], ["level", "level"], ["upright", "upright"]];
  const way = el("select", { id: "scale-way" }, ways.map(([value, words]) => el("option", { value }, words)));
  return asking("How long is it?", "The length between the two points as it really is. Where the picture lies crooked, say how the line between them runs.",
    [labelled(`Length (${unit})`, text), labelled("The line runs", way)], "Scale it", () => tryIt({ text: text.value, way: way.value }));
}

export function askSides(unit, tryIt) {
  const [one, next] = [length("side-one"), length("side-next")];
  return asking("How long are its sides?", "The real lengths of the side from the first corner that you tapped to the second, and of the side from there to the third.",
    [labelled(`First side (${unit})`, one), labelled(`Next side (${unit})`, next)], "Square it up", () => tryIt({ texts: [one.value, next.value] }));
}

export function askPage(pages) {
  const number = el("input", { id: "tracing-page-number", type: "number", min: 1, max: pages, value: 1, required: true });
  return asking("Which page?", `The PDF has ${pages} pages.`, [labelled("Page", number)], "Lay it under", () => Number(number.value));
}
