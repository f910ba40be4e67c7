// The tools: what each is called, its key, how many taps it takes, and what it says.

import { el } from "./dom.js";

// `taps` is the number of points that end a shape; 0 where the user ends it; `closed` where it is an area.
export const TOOLS = [
  { id: "choose", name: "Choose", key: "o", hint: "" },
  { id: "several", name: "Several", key: "b", hint: "Tap what is to be chosen together, or drag a box around it." },
  { id: "outline", name: "Outline", key: "u", taps: 0, closed: true, hint: "Tap the corners of the slab, or type its legs; Enter, a double tap or the first corner again closes it." },
  { id: "joint", name: "Draw joint", key: "j", taps: 2, hint: "Tap where the joint begins, then where it goes. It is carried on to the next edge or joint." },
  { id: "split", name: "Split", key: "s", hint: "Tap a panel to split it there (with Shift along its length), a joint to add a bend, an edge to add a corner." },
  { id: "forbid", name: "Forbid line", key: "x", taps: 2, hint: "Tap the two ends of a line where no joint may lie." },
  { id: "wall", name: "Wall", key: "w", taps: 2, hint: "Tap the two ends of the wall's centre line." },
  { id: "column", name: "Column", key: "c", taps: 1, hint: "Tap where the column stands." },
  { id: "penetration", name: "Drain", key: "d", taps: 1, hint: "Tap where the drain is." },
  { id: "opening", name: "Opening", key: "h", taps: 2, hint: "Tap two opposite corners of the opening." },
  { id: "keep-out", name: "Keep-out", key: "k", taps: 0, closed: true, hint: "Tap the corners of the area; Enter, a double tap or the first corner again closes it." },
  { id: "zone", name: "Zone", key: "z", taps: 0, closed: true, hint: "Tap the corners of an area with its own thickness; Enter, a double tap or the first corner again closes it." },
  { id: "measure", name: "Measure", key: "m", taps: 2, hint: "Tap two points to see the distance between them." },
];

// Taken from beside the picture under the drawing; so many of their points (`free`) rest where they are tapped.
export const PICKS = [
  { id: "tracing-scale", name: "Scale the picture", taps: 2, free: 2, hint: "Tap two points of the picture a known length apart; zoom in to meet them." },
  { id: "tracing-square", name: "Square the picture up", taps: 4, free: 4, hint: "Tap the four corners of something rectangular in the picture, one after the other round it." },
  { id: "tracing-move", name: "Move the picture", taps: 2, free: 1, hint: "Tap a point of the picture, then where it belongs." },
];

export function toolOf(id) {
  return [...TOOLS, ...PICKS].find((tool) => tool.id === id) ?? TOOLS[0];
}

export function toolbar(take, only = TOOLS.map((tool) => tool.id)) {
  return TOOLS.filter((tool) => only.includes(tool.id)).map((tool) =>
    el("button", { type: "button", id: `tool-${tool.id}`, "aria-pressed": String(tool.id === "choose"), title: `${tool.name} (${tool.key.toUpperCase()})`, on: { click: () => take(tool.id) } }, tool.name));
}

export function showTool(id, only = TOOLS.map((tool) => tool.id)) {
  for (const each of only) document.getElementById(`tool-${each}`).setAttribute("aria-pressed", String(each === id));
}
