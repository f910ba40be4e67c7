// The layout in words, for who does not see the drawing: row by row, each panel with its size; then each joint.

import { el } from "./dom.js";
import { lengthText } from "./lengths.js";

// Panels whose middles lie this share of their height apart are in one row.
const LEVEL = 0.35;

export function accountOf(picture) {
  const rows = rowsOf(picture.panels);
  const { totals, rules, slab } = picture;
  const status = (panel) => (panel.status === "ok" ? "" : `, ${panel.status}`);
  const lines = rows.map((row, i) => `Row ${i + 1} from below, ${counted(row.length, "panel")}: ${row.map((panel) => `${panel.id} ${panel.length} by ${panel.width}${status(panel)}`).join("; ")}.`);
  const [x0, y0] = picture.bounds;
  const place = ([x, y]) => `${lengthText(x - x0, picture.display)} from the left and ${lengthText(y - y0, picture.display)} from the bottom`;
  const joints = picture.joints.map((each) => `${each.id}, ${each.kind}, ${each.length} long, from ${place(each.path[0])} to ${place(each.path.at(-1))}; ${each.note}.`);
  const summary = `${counted(totals.panels, "panel")} in ${counted(rows.length, "row")}, ${counted(totals.joints, "joint")}, ${totals.length} of joint; slab ${slab.thickness} thick, ${totals.area}; panels up to ${rules.span}. ${counted(totals.errors, "error")}, ${counted(totals.warnings, "warning")}.`;
  return { summary, lines, joints };
}

function rowsOf(panels) {
  const rows = [];
  for (const panel of [...panels].sort((a, b) => a.at[1] - b.at[1])) {
    const row = rows.at(-1);
    if (row && panel.at[1] - row[0].at[1] < LEVEL * panel.mm.width) row.push(panel);
    else rows.push([panel]);
  }
  for (const row of rows) row.sort((a, b) => a.at[0] - b.at[0]);
  return rows;
}

function counted(n, word) {
  return `${n} ${n === 1 ? word : `${word}s`}`;
}

export function accountList(picture) {
  const { summary, lines, joints } = accountOf(picture);
  return [
    el("p", {}, summary),
    el("ul", { class: "account" }, lines.map((words) => el("li", {}, words))),
    joints.length ? el("h3", {}, "Joints") : null,
    el("ul", { class: "account" }, joints.map((words) => el("li", {}, words))),
  ].filter(Boolean);
}
