// Pictures of what came in: its layers in colours of our own, what may be the slab, and its size beside a car.

import { shape, swap } from "./dom.js";
import { pathData } from "./shapes.js";

export const COLOURS = 10;
// A car as a yardstick, mm.
const CAR = [4600, 1800];

function candidateShapes({ seen, slab }, pick, size) {
  return seen.candidates.map((each) => {
    const [x, y] = each.label;
    const edges = [each.ring, ...each.courts].map((ring) => pathData(ring, true)).join("");
    const label = shape("text", { x, y: -y, "font-size": size }, each.number);
    return shape("g", { class: `candidate${each.number === slab ? " chosen" : ""}`, "data-number": each.number, on: { click: () => pick(each.number) } }, shape("path", { d: edges, "fill-rule": "evenodd" }), label);
  });
}

export function drawMap(map, state, pick) {
  const { seen, roles } = state;
  const points = [...seen.layers.flatMap((layer) => layer.paths.flat()), ...seen.candidates.flatMap((each) => each.ring)];
  if (!points.length) return;
  const xs = points.map((p) => p[0]);
  const ys = points.map((p) => p[1]);
  const [x0, x1, y0, y1] = [least(xs), most(xs), least(ys), most(ys)];
  const pad = Math.max(x1 - x0, y1 - y0, 1) / 30;
  map.setAttribute("viewBox", `${x0 - pad} ${-y1 - pad} ${x1 - x0 + 2 * pad} ${y1 - y0 + 2 * pad}`);
  swap(map, candidateShapes(state, pick, pad), seen.layers.map((layer, index) =>
    shape("path", { class: `layer-${index % COLOURS}${roles.get(layer.name) ? "" : " unused"}`, d: layer.paths.map((path) => pathData(path)).join("") })));
}

const least = (values) => values.reduce((a, b) => Math.min(a, b), Infinity);
const most = (values) => values.reduce((a, b) => Math.max(a, b), -Infinity);

// The drawing's extent and a car at one scale; what would be smaller than a dot is a dot.
export function yardstick({ width, height }) {
  const [long, high] = [Math.max(width, CAR[0]), Math.max(height, CAR[1])];
  const [w, h] = [long * 1.1, high * 1.1];
  const dot = Math.max(long, high) / 60;
  const rect = (cls, x, y, a, b) => shape("rect", { class: cls, x, y, width: Math.max(a, dot), height: Math.max(b, dot), rx: cls === "car" ? Math.max(a, dot) / 8 : 0 });
  return shape("svg", { class: "yardstick", viewBox: `${-w * 0.05} ${-h * 0.05} ${w + w * 0.05} ${h + h * 0.05}`, "aria-hidden": "true" },
    rect("extent", 0, 0, width, height), rect("car", Math.min(width, long) * 0.04, Math.min(height, high) * 0.04, CAR[0], CAR[1]));
}
