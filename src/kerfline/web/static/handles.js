// The points of what is chosen that can be moved: ends and bends of a joint, corners of the slab, its openings, zones and keep-outs.

import { shape } from "./dom.js";
import { lengthText } from "./lengths.js";

export const HANDLES = ["end", "vertex"];

export function ringOf(picture, { what: kind, id }) {
  return picture.slab.rings.find((each) => each.what === kind && each.id === id);
}

export function pointsOf(picture, which) {
  if (which.what === "joint") return picture.joints.find((each) => each.id === which.id)?.path ?? [];
  return ringOf(picture, which)?.corners.map((corner) => corner.at) ?? [];
}

export function handlesOf(picture, chosen) {
  if (!chosen) return [];
  const ring = ringOf(picture, chosen);
  if (ring) return ring.corners.map((corner, index) => ({ ...corner, kind: "vertex", index, name: `Corner ${index + 1}` }));
  if (chosen.what !== "joint") return [];
  const joint = picture.joints.find((each) => each.id === chosen.id);
  if (!joint) return [];
  const last = joint.path.length - 1;
  return [
    { kind: "end", index: 0, at: joint.path[0], name: "Start" },
    ...joint.bends.map((index, number) => ({ kind: "vertex", index, at: joint.path[index], name: `Bend ${number + 1}` })),
    { kind: "end", index: 1, at: joint.path[last], name: "End" },
  ];
}

export function samePart(one, other) {
  return one?.kind === other?.kind && one?.index === other?.index;
}

export function handleShape(picture, owner, each) {
  const [x, y] = each.at;
  const [x0, y0] = picture.bounds;
  const picked = samePart(owner.part, each);
  const knob = each.kind === "end" ? shape("circle", { class: "knob", r: 6 }) : shape("rect", { class: "knob", x: -6, y: -6, width: 12, height: 12 });
  const place = each.x ? `x ${each.x}, y ${each.y}` : `${lengthText(x - x0, picture.display)} from the left, ${lengthText(y - y0, picture.display)} from the bottom`;
  return shape(
    "g",
    { class: `handle${picked ? " picked" : ""}`, transform: `translate(${x} ${-y})`, tabindex: 0, role: "button", "aria-pressed": String(picked), "aria-label": `${each.name} of ${title(owner)}, ${place}`, "data-what": each.kind, "data-id": `${each.index} ${owner.id}`, "data-of": owner.what },
    shape("g", { class: "upright" }, shape("circle", { class: "reach", r: 22 }), knob),
  );
}

export function title({ what: kind, id }) {
  return kind === "outline" ? "the outline" : `${kind} ${id}`;
}

// Which point a handle stands for.
export function partOf(target) {
  return { kind: target.what, index: Number(target.id.split(" ", 1)[0]) };
}
