// The points of what is chosen, by name: take hold of one, write its place, add and take away.

import { el } from "./dom.js";
import { button, choice, field } from "./controls.js";
import { handlesOf, samePart, title } from "./handles.js";

export function jointPoints(picture, joint, chosen, hands) {
  const handles = handlesOf(picture, chosen);
  const picked = handles.find((each) => samePart(each, chosen.part));
  return [
    el("div", { class: "row" },
      choice("Point", ["whole joint", ...handles.map((each) => each.name)], picked?.name ?? "whole joint", (name) => hands.pick(handles.find((each) => each.name === name) ?? null)),
      button("Add a knee", () => hands.act({ do: "add-vertex", what: "joint", id: joint.id, after: stretchAfter(joint, picked) }))),
    picked?.kind === "vertex" ? kneeRows(picture, joint, picked, hands) : null,
    el("p", {}, el("small", {}, picked?.kind === "end" ? "Arrow keys on the drawing move this end to the next edge or joint." : "Arrow keys on the drawing move what is taken hold of.")),
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
    picked && cornerRows(which, picked, hands),
    el("p", {}, el("small", {}, picked ? "Arrow keys on the drawing move this corner; Delete takes it away." : "A corner is added after the one that is taken hold of, else in the longest edge.")),
  ];
}

function cornerRows(which, { index, x, y }, hands) {
  const place = (axis) => (text) => hands.act({ do: "place-vertex", ...which, index, axis, text });
  return el("div", { class: "row" },
    field("x", x, place("x")),
    field("y", y, place("y")),
    button("Remove the corner", () => hands.act({ do: "remove-vertex", ...which, index })));
}

// A knee more goes beside the point that is taken hold of, else into the longest stretch.
function stretchAfter(joint, picked) {
  if (!picked) return null;
  if (picked.kind === "vertex") return picked.index;
  return picked.index ? joint.path.length - 2 : 0;
}

function kneeRows(picture, joint, { index, at }, hands) {
  const place = (axis) => (text) => hands.act({ do: "place-vertex", what: "joint", id: joint.id, index, axis, text });
  return el("div", { class: "row" },
    field("From the left", hands.length(at[0] - picture.bounds[0]), place("x")),
    field("From the bottom", hands.length(at[1] - picture.bounds[1]), place("y")),
    button("Remove the knee", () => hands.act({ do: "remove-vertex", what: "joint", id: joint.id, index })));
}
