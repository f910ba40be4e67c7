// The points of what is chosen, by name: choose one, write its place, add and take away.

import { el } from "./dom.js";
import { button, choice, field } from "./controls.js";
import { handlesOf, samePart, title } from "./handles.js";

export function jointPoints(picture, joint, chosen, hands) {
  const handles = handlesOf(picture, chosen);
  const picked = handles.find((each) => samePart(each, chosen.part));
  return [
    el("div", { class: "row" },
      choice("Point", ["whole joint", ...handles.map((each) => each.name)], picked?.name ?? "whole joint", (name) => hands.pick(handles.find((each) => each.name === name) ?? null)),
      button("Add a bend", () => hands.act({ do: "add-vertex", what: "joint", id: joint.id, after: stretchAfter(joint, picked) }))),
    picked?.kind === "vertex" ? bendRows(picture, joint, picked, hands) : null,
    el("p", {}, el("small", {}, picked?.kind === "end" ? "Arrow keys move this end to the next edge or joint." : "Arrow keys move what is chosen.")),
  ];
}

export function ringPoints(picture, ring, chosen, hands) {
  const handles = handlesOf(picture, chosen);
  const picked = handles.find((each) => samePart(each, chosen.part));
  const which = { what: ring.what, id: ring.id };
  const whole = `all of ${title(which)}`;
  return [
    el("div", { class: "row" },
      choice("Point", [whole, ...handles.map((each) => each.name)], picked?.name ?? whole, (name) => hands.pick(handles.find((each) => each.name === name) ?? null)),
      button("Add a corner", () => hands.act({ do: "add-vertex", ...which, after: picked?.index ?? null }))),
    picked && cornerRows(picture, which, picked, hands),
    el("p", {}, el("small", {}, picked ? "Arrow keys move this corner; Delete takes it away." : "A corner is added after the one that is chosen, else in the longest edge.")),
  ];
}

function cornerRows(picture, which, { index, x, y }, hands) {
  const place = (axis) => (text) => hands.act({ do: "place-vertex", ...which, index, axis, text });
  return el("div", { class: "row" },
    field(`x (${picture.units.length})`, x, place("x")),
    field(`y (${picture.units.length})`, y, place("y")),
    button("Remove the corner", () => hands.act({ do: "remove-vertex", ...which, index })));
}

// A bend more goes beside the point that is chosen, else into the longest stretch.
function stretchAfter(joint, picked) {
  if (!picked) return null;
  if (picked.kind === "vertex") return picked.index;
  return picked.index ? joint.path.length - 2 : 0;
}

function bendRows(picture, joint, { index, at }, hands) {
  const place = (axis) => (text) => hands.act({ do: "place-vertex", what: "joint", id: joint.id, index, axis, text });
  return el("div", { class: "row" },
    field(`From the left (${picture.units.length})`, hands.length(at[0] - picture.bounds[0]), place("x")),
    field(`From the bottom (${picture.units.length})`, hands.length(at[1] - picture.bounds[1]), place("y")),
    button("Remove the bend", () => hands.act({ do: "remove-vertex", what: "joint", id: joint.id, index })));
}
