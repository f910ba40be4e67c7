// What is done to all that is chosen, as one step.

import { stepped, steps } from "./drags.js";

const KEPT = ["panel", "finding", "outline", "tracing"];

function together(actions) {
  if (!actions.length) return null;
  return actions.length === 1 ? actions[0] : { do: "many", actions };
}

// Openings are numbered: the last goes first, so that the numbers of the others still hold.
function lastFirst(items) {
  return [...items].sort((a, b) => (a.what === "opening" && b.what === "opening" ? Number(b.id) - Number(a.id) : 0));
}

export function deleteOf(items) {
  const [one] = items;
  if (items.length === 1 && one.part?.kind === "vertex") return { do: "remove-vertex", what: one.what, id: one.id, index: one.part.index };
  return together(lastFirst(items).filter((each) => !KEPT.includes(each.what)).map(({ what, id }) => ({ do: "delete", what, id })));
}

export function stepOf(picture, items, by) {
  if (!items.length || !items.every((each) => steps(each))) return null;
  return together(items.map((each) => stepped(picture, each, by)).filter(Boolean));
}

export function pinOf(state, items) {
  const joints = items.filter((each) => each.what === "joint").map((each) => state.joints.find((joint) => joint.id === each.id)).filter(Boolean);
  const pinned = joints.some((joint) => !joint.pinned);
  return together(joints.map(({ id }) => ({ do: "pin", id, pinned })));
}

export function copyable(items) {
  return items.filter((each) => !KEPT.includes(each.what)).map(({ what, id }) => ({ what, id }));
}

export function copyOf(items, by) {
  const mine = copyable(items);
  return mine.length ? { do: "repeat", items: mine, by, times: 1 } : null;
}

const LISTS = { wall: "walls", column: "columns", penetration: "penetrations", "keep-out": "keepOuts", forbidden: "forbidden", zone: "zones" };

export function listOf(picture, what) {
  if (what === "joint") return picture.joints;
  if (what === "opening") return picture.slab.rings.filter((ring) => ring.what === "opening");
  return picture.slab[LISTS[what]] ?? [];
}

// What a step brought that was not there before, to be chosen.
export function newThings(before, after) {
  const kinds = ["joint", "opening", ...Object.keys(LISTS)];
  return kinds.flatMap((what) => {
    const were = new Set(listOf(before, what).map((each) => each.id));
    return listOf(after, what).filter((each) => !were.has(each.id)).map((each) => ({ what, id: each.id, part: null }));
  });
}
