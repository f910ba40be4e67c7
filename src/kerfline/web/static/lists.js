// The lists beside the drawing: everything that is drawn can be reached here by keyboard.

import { el, swap } from "./dom.js";

export const WORDS = { error: "Error", warning: "Warning", advice: "Advice", ok: "OK" };
export const ORDER = ["error", "warning", "advice"];

export function panelsList(picture, choose, chosen) {
  return listed(picture.panels, (panel) => chosen.has({ what: "panel", id: panel.id }), (panel) =>
    item(choose, chosen, { what: "panel", id: panel.id },
      tag(panel.status, panel.id), `${panel.length} × ${panel.width}`,
      el("small", {}, `aspect ${panel.aspect}, ${percent(panel.share)} of ${panel.limit}, ${panel.area}${panel.status === "ok" ? "" : `, ${WORDS[panel.status].toLowerCase()}`}`)));
}

export function jointsList(picture, choose, chosen, state) {
  if (!picture.joints.length) return el("p", { class: "empty" }, "No joints yet. Draw one, or let the program lay out the rest.");
  const pins = new Set((state?.joints ?? []).filter((j) => j.pinned).map((j) => j.id));
  return listed(picture.joints, (joint) => chosen.has({ what: "joint", id: joint.id }), (joint) =>
    item(choose, chosen, { what: "joint", id: joint.id },
      tag("ok", joint.id), `${joint.kind}, ${joint.length}${pins.has(joint.id) ? ", pinned" : ""}`,
      el("small", {}, joint.note)));
}

const SHOWN = 150;

// A list of thousands shows the first of them, what is chosen, and a button for more.
export function listed(all, chosen, make, shown = SHOWN) {
  const list = el("ul", {}, all.slice(0, shown).map(make), all.slice(shown).filter(chosen).map(make));
  if (all.length <= shown) return list;
  const more = el("button", { type: "button", class: "more-rows", on: { click: () => whole.replaceWith(listed(all, chosen, make, shown + 10 * SHOWN)) } }, `Show more (${all.length - shown} left)`);
  const whole = el("div", {}, list, more);
  return whole;
}

export function slabList(picture, choose, chosen) {
  const { slab } = picture;
  const corners = (ring) => `${ring.corners.length} corners`;
  const groups = [
    ["Outline", "outline", slab.rings.filter((ring) => ring.what === "outline"), corners],
    ["Openings", "opening", slab.rings.filter((ring) => ring.what === "opening"), (ring) => ring.sizes.map((size) => size.text).join(" × ")],
    ["Walls", "wall", slab.walls, (w) => `${w.bearing ? "bearing, " : ""}${w.thickness} thick`],
    ["Columns", "column", slab.columns, (c) => `${c.boxout === "none" ? "no boxout" : `${c.boxout} boxout`}, ${c.size}`],
    ["Drains and pipes", "penetration", slab.penetrations, (p) => `${p.kind} ${p.size}`],
    ["Keep-outs", "keep-out", slab.keepOuts, (k) => k.what],
    ["Forbidden lines", "forbidden", slab.forbidden, () => "no joint along this line"],
    ["Zones", "zone", slab.zones, (z) => `${z.thickness} thick`],
  ];
  const used = groups.filter(([, , each]) => each.length);
  const things = used.map(([title, what, each, words]) => [
    el("h3", {}, title),
    el("ul", {}, each.map((one) => item(choose, chosen, { what, id: one.id }, what === "outline" ? null : tag("ok", one.id), words(one)))),
  ]).flat();
  return [...rulesWords(picture), ...notesWords(picture.notes), ...things];
}

function rulesWords({ rules, slab }) {
  return [
    el("h3", {}, `Rules: ${rules.title}, ${slab.thickness} thick`),
    el("p", {}, `Panels up to ${rules.span}, ${rules.greatest} at most; aspect ${rules.aspect}.`, el("small", {}, rules.source)),
  ];
}

function notesWords(notes) {
  if (!notes.length) return [];
  return [el("h3", {}, "Please confirm"), el("ul", {}, notes.map((note) => el("li", { class: "note" }, note)))];
}

export function item(choose, chosen, which, ...children) {
  const current = chosen.has(which);
  return el("li", {}, el("button", { type: "button", "aria-current": current ? "true" : undefined, "data-key": `${which.what} ${which.id}`, on: { click: () => choose(which, true) } }, children));
}

export function tag(status, words) {
  return el("span", { class: `tag ${status}` }, words);
}

export function percent(share) {
  return `${Math.round(share * 100)} %`;
}

export function totalsLine(node, totals, rules) {
  const count = (n, one, many) => `${n} ${n === 1 ? one : many}`;
  swap(node,
    el("b", {}, count(totals.panels, "panel", "panels")), ", ",
    el("b", {}, totals.length), ` of joint in ${totals.joints}, ${totals.hidden} under walls; `,
    `${count(totals.lines, "chalk line", "chalk lines")}, ${count(totals.tees, "tee end", "tee ends")}. `,
    totals.errors ? el("span", { class: "bad" }, count(totals.errors, "error", "errors")) : "No error", ", ",
    totals.warnings ? el("span", { class: "warn" }, count(totals.warnings, "warning", "warnings")) : "no warning",
    `. Panels up to ${rules.span}, ${rules.greatest} at most.`);
}

// Shows the tab that was asked for; left and right move between tabs.
export function bindTabs(list, onShow) {
  const tabs = [...list.querySelectorAll("[role=tab]")];
  const show = (tab, focus) => {
    for (const each of tabs) {
      const on = each === tab;
      each.setAttribute("aria-selected", String(on));
      each.tabIndex = on ? 0 : -1;
      document.getElementById(each.getAttribute("aria-controls")).hidden = !on;
    }
    if (focus) tab.focus();
    onShow?.(tab.id);
  };
  tabs.forEach((tab, index) => {
    tab.addEventListener("click", () => show(tab, false));
    tab.addEventListener("keydown", (event) => {
      const step = { ArrowRight: 1, ArrowLeft: -1 }[event.key];
      if (step) show(tabs[(index + step + tabs.length) % tabs.length], true);
    });
  });
  return (id) => show(tabs.find((tab) => tab.id === id), false);
}
