// What a drag or an arrow key does to what is chosen: which action it asks for, where it rests, and the words for it.

import { HANDLES, handlesOf, partOf, pointsOf, samePart } from "./handles.js";
import { longestStretch, snapCorner, snapEnd, snapBend, snapLine, snapShift } from "./snap.js";

export const MOVABLE = ["wall", "column", "penetration", "keep-out", "forbidden", "zone", "opening"];

// What a pointer that went down on something would drag; a finger drags only what is chosen already.
export function dragOf(target, selection, finger) {
  const { one } = selection;
  if (HANDLES.includes(target.what)) return one && { ...partOf(target), what: one.what, id: one.id, part: partOf(target) };
  const mine = selection.has(target);
  if (finger && !mine) return null;
  if (mine && selection.items.length > 1) return { kind: "several", items: selection.items, what: target.what, id: target.id };
  if (target.what === "tracing") return { kind: "tracing", what: "tracing", id: target.id };
  if (target.what === "joint") return { kind: "joint", what: "joint", id: target.id };
  if (MOVABLE.includes(target.what)) return { kind: "thing", what: target.what, id: target.id };
  return null;
}

export function dragged(drag, { picture, from, to, scale, free, length }) {
  const by = [to[0] - from[0], to[1] - from[1]];
  return {
    joint: () => slideJoint(picture, drag, by, scale, free, length),
    end: () => dragEnd(picture, drag, to, scale, free),
    vertex: () => dragVertex(picture, drag, to, scale, free, length),
    thing: () => ({ action: { do: "move", what: drag.what, id: drag.id, by: snapShift(picture, by) } }),
    tracing: () => ({ action: { do: "move-tracing", by } }),
    several: () => ({ action: moveAll(picture, drag.items, snapShift(picture, by)) }),
  }[drag.kind]();
}

function moveAll(picture, items, by) {
  const actions = items.filter((each) => steps(each)).map((each) => stepped(picture, { ...each, part: null }, by)).filter(Boolean);
  return { do: "many", actions };
}

function slideJoint(picture, { id }, by, scale, free, length) {
  const joint = picture.joints.find((each) => each.id === id);
  if (!joint) return null;
  const snapped = snapLine(picture, joint, by, scale, free);
  const ghost = joint.path.map(([x, y]) => [x + snapped.by[0], y + snapped.by[1]]);
  const [x0, y0] = picture.bounds;
  const [a, b] = longestStretch(ghost);
  const upright = Math.abs(a[0] - b[0]) < 0.5;
  const level = Math.abs(a[1] - b[1]) < 0.5;
  const place = upright ? `${length(a[0] - x0)} from the left` : level ? `${length(a[1] - y0)} from the bottom` : "";
  return { action: { do: "slide", id, by: snapped.by }, ghost, words: [place, snapped.words].filter(Boolean).join(", ") };
}

function dragEnd(picture, { id, index }, to, scale, free) {
  const joint = picture.joints.find((each) => each.id === id);
  if (!joint) return null;
  const action = { do: "end", id, end: index, to };
  if (joint.path.length === 2) return { action };
  const snapped = snapEnd(picture, joint, to, scale, free);
  return { action: { ...action, to: snapped.at, near: snapped.near }, words: snapped.words };
}

function dragVertex(picture, { what: kind, id, index }, to, scale, free, length) {
  const points = pointsOf(picture, { what: kind, id });
  if (!points[index]) return null;
  const snapped = kind === "joint" ? snapBend(picture, id, points, index, to, scale, free) : snapCorner(picture, points, index, to, scale, free);
  const [x0, y0] = picture.bounds;
  const place = `${length(snapped.at[0] - x0)} from the left, ${length(snapped.at[1] - y0)} from the bottom`;
  return { action: { do: "vertex", what: kind, id, index, to: snapped.at }, words: [place, snapped.words].filter(Boolean).join(", ") };
}

export function steps({ what: kind, part }) {
  return ["joint", "tracing"].includes(kind) || Boolean(part) || MOVABLE.includes(kind);
}

// One step of what is chosen, or of its point that is chosen.
export function stepped(picture, chosen, by) {
  if (!chosen) return null;
  const { what: kind, id, part } = chosen;
  if (part?.kind === "end") return { do: "step-end", id, end: part.index, by };
  if (part) {
    const at = handlesOf(picture, chosen).find((each) => samePart(each, part))?.at;
    return at && { do: "vertex", what: kind, id, index: part.index, to: [at[0] + by[0], at[1] + by[1]] };
  }
  if (kind === "joint") return { do: "slide", id, by };
  if (kind === "tracing") return { do: "move-tracing", by };
  return MOVABLE.includes(kind) ? { do: "move", what: kind, id, by } : null;
}
