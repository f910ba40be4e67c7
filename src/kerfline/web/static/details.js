// What is chosen: its measures, and what can be done with it.

import { el } from "./dom.js";
import { button, choice, field, tick } from "./controls.js";
import { percent, tag } from "./lists.js";
import { ringOf } from "./handles.js";
import { gathered, named } from "./naming.js";
import { jointPoints, ringPoints } from "./points.js";

export function details(view, selection, hands) {
  const chosen = selection.one;
  if (selection.items.length > 1) return severalDetails(selection.items, hands);
  const make = {
    panel: panelDetails,
    joint: jointDetails,
    finding: findingDetails,
    wall: thingDetails,
    column: thingDetails,
    penetration: thingDetails,
    "keep-out": thingDetails,
    forbidden: thingDetails,
    zone: thingDetails,
    outline: ringDetails,
    opening: ringDetails,
    tracing: tracingDetails,
  }[chosen?.what];
  const made = make?.(view, chosen, hands);
  return made ?? [
    el("p", { class: "empty" }, "Choose a panel, a joint or a finding on the drawing or in the lists."),
    hands && el("p", { class: "empty" }, el("small", {}, "With Shift, or the tool Several, more than one is chosen. The right button, a long press or the menu key shows what can be done at a place.")),
  ].filter(Boolean);
}

function tracingDetails() {
  return [el("h2", {}, "The picture under the drawing"), el("p", {}, "Drag it, or press the arrow keys, to move it. Locked, it stays where it is.")];
}

function severalDetails(items, hands) {
  return [
    el("h2", {}, `${gathered(items)} chosen`),
    el("p", {}, el("small", {}, items.map(named).join(", "))),
    el("div", { class: "row" },
      items.some((each) => each.what === "joint") ? button("Pin or unpin", () => hands.pin()) : null,
      button("Copy", () => hands.copy()),
      button("Repeat", () => hands.repeat()),
      button("Delete", () => hands.remove())),
    el("p", {}, el("small", {}, "Drag one of them, or press the arrow keys, to move them all.")),
  ];
}

export function facts(...pairs) {
  return el("dl", { class: "facts" }, pairs.filter(([, value]) => value).map(([name, value]) => [el("dt", {}, name), el("dd", {}, value)]).flat());
}

export function meter(share) {
  const bar = el("div", { class: share > 1 ? "over" : "" });
  bar.style.width = `${Math.min(share, 1) * 100}%`;
  return el("div", { class: "meter", role: "img", "aria-label": `${percent(share)} of the limit` }, bar);
}

export function panelFacts(panel) {
  return [
    facts(["Length", panel.length], ["Width", panel.width], ["Aspect", panel.aspect], ["Area", panel.area], ["Of the limit", `${percent(panel.share)} of ${panel.limit}`]),
    meter(panel.share),
  ];
}

export function jointFacts(joint, pinned) {
  return facts(
    ["Kind", joint.kind],
    ["Length", joint.length],
    ["Under walls", joint.hidden],
    ["Depth of cut", joint.depth],
    ["Why here", joint.note || joint.reason],
    ["Pinned", pinned === undefined ? "" : pinned ? "yes" : "no"],
  );
}

function related(picture, id) {
  const found = picture.findings.filter((finding) => finding.subject === id);
  return found.map((finding) => el("p", {}, tag(finding.severity, finding.rule), `${finding.message} ${finding.remedy}`));
}

function panelDetails({ picture }, { id }, hands) {
  const panel = picture.panels.find((each) => each.id === id);
  if (!panel) return null;
  return [
    el("h2", {}, `Panel ${id}`),
    panelFacts(panel),
    related(picture, id),
    hands && el("div", { class: "row" },
      button("Split across", () => hands.act({ do: "split", id })),
      button("Split along", () => hands.act({ do: "split", id, turned: true }))),
  ].flat();
}

function jointDetails({ picture, state }, chosen, hands) {
  const { id } = chosen;
  const joint = picture.joints.find((each) => each.id === id);
  if (!joint) return null;
  const drawn = state?.joints.find((each) => each.id === id);
  const points = hands && jointPoints(picture, joint, chosen, hands);
  return [
    el("h2", {}, `Joint ${id}`),
    chosen.part ? points : null,
    jointFacts(joint, drawn?.pinned),
    related(picture, id),
    hands && jointHands(picture, joint, drawn, hands),
    chosen.part ? null : points,
  ].flat();
}

function jointHands(picture, joint, drawn, hands) {
  const { id } = joint;
  const [a, b] = [joint.path[0], joint.path[joint.path.length - 1]];
  const straight = joint.path.length === 2;
  const upright = straight && Math.abs(a[0] - b[0]) < 0.5;
  const level = straight && Math.abs(a[1] - b[1]) < 0.5;
  const rows = [
    el("div", { class: "row" },
      button(drawn?.pinned ? "Unpin" : "Pin", () => hands.act({ do: "pin", id, pinned: !drawn?.pinned })),
      button("Forbid here", () => hands.act({ do: "forbid", id })),
      button("Copy", () => hands.copy()),
      button("Repeat", () => hands.repeat()),
      button("Delete", () => hands.remove())),
    el("div", { class: "row" },
      choice("Kind", ["control", "construction", "isolation"], joint.kind, (kind) => hands.act({ do: "kind", id, kind }))),
  ];
  if (upright || level) {
    const from = `Distance from the ${upright ? "left" : "bottom"} (${picture.units.length})`;
    const place = upright ? a[0] - picture.bounds[0] : a[1] - picture.bounds[1];
    rows.push(el("div", { class: "row" }, field(from, hands.length(place), (text) => hands.act({ do: "place", id, text }))));
  }
  return rows;
}

function findingDetails({ picture }, { id }) {
  const finding = picture.findings[Number(id)];
  if (!finding) return null;
  return [
    el("h2", {}, tag(finding.severity, finding.severity), `${finding.rule}, ${finding.subject}`),
    el("p", {}, finding.message),
    el("p", {}, finding.remedy),
    el("p", {}, el("small", {}, finding.source)),
  ];
}

const LISTS = { wall: "walls", column: "columns", penetration: "penetrations", "keep-out": "keepOuts", forbidden: "forbidden", zone: "zones" };
const AREAS = ["zone", "keep-out"];
const TITLES = { wall: "Wall", column: "Column", penetration: "Drain or pipe", "keep-out": "Keep-out", forbidden: "Forbidden line", zone: "Zone" };

function thingDetails({ picture }, chosen, hands) {
  const { what, id } = chosen;
  const depth = picture.units.depth;
  const thing = picture.slab[LISTS[what]].find((each) => each.id === id);
  if (!thing) return null;
  const set = (name) => (value) => hands.act({ do: "set", what, id, field: name, value });
  const fields = {
    wall: () => [field(`Thickness (${depth})`, thing.thickness, set("thickness")), tick("Bearing", thing.bearing, set("bearing"))],
    column: () => [choice("Boxout", ["diamond", "square", "circle", "none"], thing.boxout, set("boxout")), field(`Size (${depth})`, thing.size, set("size"))],
    penetration: () => [choice("Kind", ["pipe", "drain", "conduit", "post"], thing.kind, set("kind")), field(`Diameter (${depth})`, thing.size, set("diameter"))],
    "keep-out": () => [field("What lies there", thing.what, set("what"))],
    forbidden: () => [],
    zone: () => [field(`Thickness (${depth})`, thing.thickness, set("thickness"))],
  };
  return [
    el("h2", {}, `${TITLES[what]} ${id}`),
    related(picture, id),
    !hands && thing.thickness ? facts(["Thickness", thing.thickness]) : null,
    hands && el("div", { class: "row" }, fields[what]()),
    hands && el("div", { class: "row" }, button("Copy", () => hands.copy()), button("Repeat", () => hands.repeat()), button("Delete", () => hands.remove())),
    hands && AREAS.includes(what) ? ringPoints(picture, ringOf(picture, chosen), chosen, hands) : null,
    hands && el("p", {}, el("small", {}, "Drag it on the drawing, or move it with the arrow keys.")),
  ].flat();
}

function ringDetails({ picture }, chosen, hands) {
  const ring = ringOf(picture, chosen);
  if (!ring) return null;
  const opening = chosen.what === "opening";
  const set = (name) => (value) => hands.act({ do: "set", what: "opening", id: ring.id, field: name, value });
  const points = hands && ringPoints(picture, ring, chosen, hands);
  return [
    el("h2", {}, opening ? `Opening ${ring.id}` : "Outline"),
    chosen.part ? points : null,
    hands ? null : facts(["Corners", ring.corners.length], ...(ring.sizes ?? []).map(({ words, text }) => [words, text])),
    opening && hands && el("div", { class: "row" }, ring.sizes.map((size) => field(`${size.words} (${picture.units.length})`, size.text, set(size.field)))),
    opening && hands && el("div", { class: "row" }, field(`From the left (${picture.units.length})`, ring.left, set("left")), field(`From the bottom (${picture.units.length})`, ring.bottom, set("bottom"))),
    opening && hands && el("div", { class: "row" }, button("Copy", () => hands.copy()), button("Repeat", () => hands.repeat()), button("Delete", () => hands.remove())),
    chosen.part ? null : points,
  ].flat().filter(Boolean);
}
