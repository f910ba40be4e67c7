// Marks of findings: their shape tells how grave they are, at every zoom and without colour.

import { shape } from "./dom.js";
import { liftOf, translate } from "./labels.js";

const SIGNS = { error: "!", warning: "?", advice: "i" };
const ORDER = ["error", "warning", "advice"];
// An error is a square, a warning a triangle, advice a dot.
const SHAPES = {
  error: ["M-8 -8H8V8H-8Z", "M-5 -5H5V5H-5Z"],
  warning: ["M0 -10L10 7H-10Z", "M0 -6L6 5H-6Z"],
  advice: ["M5 0A5 5 0 1 1 -5 0A5 5 0 1 1 5 0Z", "M3 0A3 3 0 1 1 -3 0A3 3 0 1 1 3 0Z"],
};
const CELL = 26;

// Where each finding stands: one about a panel above the panel's label, one mark for all of them, the worst.
export function placed(picture, labels) {
  const panels = new Map(picture.panels.map((each) => [each.id, each]));
  const texts = new Map(labels.map((each) => [each.id, each]));
  const marked = new Set();
  const out = [];
  picture.findings.forEach((finding, index) => {
    const panel = panels.get(finding.subject);
    if (panel && (marked.has(panel.id) || (finding.severity !== panel.status && panel.status !== "ok"))) return;
    if (panel) marked.add(panel.id);
    out.push({ finding, index, at: panel ? panel.at : finding.at, label: panel && texts.get(panel.id) });
  });
  return out;
}

// Marks that would lie on one another are one: the worst of them, with their number.
export function findingMarks(spots, camera, far, box) {
  const cells = new Map();
  for (const each of spots) {
    const [x, y] = each.at;
    if (x < box[0] || x > box[2] || y < box[1] || y > box[3]) continue;
    const lift = each.label ? liftOf(each.label, camera.scale) : [0, 0];
    const at = camera.toScreen(each.at).map((value, i) => value + lift[i]);
    const key = `${Math.round(at[0] / CELL)},${Math.round(at[1] / CELL)}`;
    const held = cells.get(key);
    if (!held) cells.set(key, { ...each, screen: at, count: 1 });
    else if (ORDER.indexOf(each.finding.severity) < ORDER.indexOf(held.finding.severity)) cells.set(key, { ...each, screen: at, count: held.count + 1 });
    else held.count += 1;
  }
  return [...cells.values()].map((each) => ({
    key: `${each.index} ${each.finding.severity} ${far} ${each.count}`,
    make: () => mark(each, far),
    place: (node) => node.setAttribute("transform", translate(each.screen)),
  }));
}

function mark({ finding, index, count }, far) {
  const words = far ? "" : count > 1 ? String(count) : SIGNS[finding.severity];
  const small = far || (finding.severity === "advice" && count === 1);
  return shape("g", { class: `finding ${finding.severity}`, "data-what": "finding", "data-id": index },
    shape("circle", { class: "reach", r: 13 }),
    shape("path", { class: "mark", d: SHAPES[finding.severity][far ? 1 : 0] }),
    small ? null : shape("text", { y: finding.severity === "warning" ? 5 : 4 }, words));
}
