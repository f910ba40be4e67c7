// The present cut: its words in the hand, and its measures drawn from the corner that the crew stands at.

import { el, shape } from "./dom.js";
import { pathData } from "./shapes.js";

export function cutWords(cut, section) {
  const pair = (name, value, plain) => (value ? [el("dt", {}, name), el("dd", { class: plain ? "plain" : "" }, value)] : []);
  return [
    el("h2", {}, `Cut ${cut.number} · ${cut.joint}`),
    el("p", { class: "where" }, `${section.name ? `${section.name}; ` : ""}measured from ${section.start}`),
    el("dl", {}, ...pair("Line at", cut.at), ...pair("Start", cut.start), ...pair("End", cut.end), ...pair("Depth", cut.depth), ...pair("Window", cut.window), ...pair("Length", cut.length, true), ...pair("At the ends", cut.ends, true)),
  ];
}

export function cutRow(cut) {
  return [el("b", {}, `${cut.number} · ${cut.joint}`), ` at ${cut.at}, ${cut.start} to ${cut.end}, ${cut.depth} deep${cut.window ? `, ${cut.window}` : ""}`];
}

// The corner, the line to the cut along one face, and the cut's start along the other; in the slab's own mm.
export function measures(cut, section) {
  const [ox, oy] = section.origin;
  const angle = (section.turn * Math.PI) / 180;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const local = ([x, y]) => [(x - ox) * cos + (y - oy) * sin, (y - oy) * cos - (x - ox) * sin];
  const world = ([u, v]) => [ox + u * cos - v * sin, oy + u * sin + v * cos];
  const start = local(cut.path[0]);
  // Along the face first, then up to where the blade goes in.
  const knee = cut.way === "level" ? [0, start[1]] : [start[0], 0];
  const [first, second] = cut.way === "slanting" ? cut.start.split(", ") : [cut.at, cut.start];
  const nodes = [
    shape("path", { class: "tape", d: pathData([[ox, oy], world(knee), cut.path[0]]) }),
    spot([ox, oy], section.start.split(" ").at(-1)),
    words(mid([0, 0], knee, world), first),
  ];
  if (Math.hypot(start[0] - knee[0], start[1] - knee[1]) > 1) nodes.push(words(mid(knee, start, world), second));
  return shape("g", {}, nodes);
}

function mid(a, b, world) {
  return world([(a[0] + b[0]) / 2, (a[1] + b[1]) / 2]);
}

function words([x, y], text) {
  return shape("g", { transform: `translate(${x} ${-y})` }, shape("g", { class: "upright" }, shape("text", { y: -8 }, text)));
}

function spot([x, y], name) {
  return shape("g", { transform: `translate(${x} ${-y})` }, shape("g", { class: "upright" }, shape("circle", { class: "corner", r: 8 }), shape("text", { x: -16, y: 20 }, name)));
}
