// The list of findings: gathered by rule, filtered by how grave they are.

import { el } from "./dom.js";
import { ORDER, WORDS, item, listed, tag } from "./lists.js";

const PLURALS = { error: "errors", warning: "warnings", advice: "advice" };
const OPEN_UP_TO = 12;

// `seen` keeps what the user filtered and opened, from one picture to the next.
export function findingsList(picture, choose, chosen, seen, again) {
  const { findings } = picture;
  if (!findings.length) return el("p", { class: "empty" }, "Nothing to find: every panel and joint keeps the rules.");
  const counts = Object.fromEntries(ORDER.map((severity) => [severity, findings.filter((each) => each.severity === severity).length]));
  const filters = el("div", { class: "filters", role: "group", "aria-label": "Show" },
    ORDER.filter((severity) => counts[severity]).map((severity) => {
      const on = !seen.hidden.has(severity);
      const flip = () => {
        if (on) seen.hidden.add(severity);
        else seen.hidden.delete(severity);
        again();
      };
      return el("button", { type: "button", "aria-pressed": String(on), "data-key": `filter ${severity}`, class: `filter ${severity}`, on: { click: flip } }, sign(severity), ` ${counts[severity]} ${counts[severity] === 1 ? WORDS[severity].toLowerCase() : PLURALS[severity]}`);
    }));
  return [filters, ...groups(findings, seen).map((group) => groupRows(group, choose, chosen, seen))];
}

// Rules in the order of their worst finding; within a rule as the checks give them.
function groups(findings, seen) {
  const byRule = new Map();
  findings.forEach((finding, index) => {
    if (seen.hidden.has(finding.severity)) return;
    const group = byRule.get(finding.rule) ?? byRule.set(finding.rule, { rule: finding.rule, worst: finding.severity, rows: [] }).get(finding.rule);
    if (ORDER.indexOf(finding.severity) < ORDER.indexOf(group.worst)) group.worst = finding.severity;
    group.rows.push({ finding, index });
  });
  for (const group of byRule.values()) group.rows.sort((a, b) => ORDER.indexOf(a.finding.severity) - ORDER.indexOf(b.finding.severity) || a.index - b.index);
  return [...byRule.values()].sort((a, b) => ORDER.indexOf(a.worst) - ORDER.indexOf(b.worst));
}

function groupRows({ rule, worst, rows }, choose, chosen, seen) {
  const here = rows.some(({ index }) => chosen.has({ what: "finding", id: String(index) }));
  const open = here || (seen.open.has(rule) ? seen.open.get(rule) : rows.length <= OPEN_UP_TO);
  const node = el("details", { class: "group", open }, el("summary", { "data-key": `rule ${rule}` }, sign(worst), ` ${rule[0].toUpperCase()}${rule.slice(1)} `, el("b", {}, rows.length)));
  const fill = () => node.append(listed(rows, ({ index }) => chosen.has({ what: "finding", id: String(index) }), ({ finding, index }) =>
    item(choose, chosen, { what: "finding", id: String(index) }, tag(finding.severity, WORDS[finding.severity]), finding.message, el("small", {}, finding.remedy)), 40));
  // What is closed costs nothing.
  if (open) fill();
  node.addEventListener("toggle", () => {
    if (node.open === open && node.children.length > 1) return;
    seen.open.set(rule, node.open);
    if (node.open && node.children.length === 1) fill();
  });
  return node;
}

export function sign(severity) {
  return el("span", { class: `sign ${severity}`, "aria-hidden": "true" }, { error: "■", warning: "▲", advice: "●" }[severity]);
}

export function newSeen() {
  return { hidden: new Set(), open: new Map() };
}
