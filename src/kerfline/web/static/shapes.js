// The shapes of the slab and what stands on it, as SVG in the slab's own coordinates (mm).

import { shape } from "./dom.js";

export function pathData(points, closed = false) {
  const text = points.map(([x, y], index) => `${index ? "L" : "M"}${x} ${-y}`).join("");
  return closed && text ? `${text}Z` : text;
}

export function rings(outline, openings) {
  return [outline, ...openings].map((ring) => pathData(ring, true)).join("");
}

export function concrete(slab) {
  return shape("path", { class: "slab", d: rings(slab.outline, slab.openings), "fill-rule": "evenodd" });
}

// The outline is taken by its edge, an opening anywhere inside.
export function ringShapes(slab) {
  const lines = [slab.outline, ...slab.openings];
  return slab.rings.filter((ring) => ["outline", "opening"].includes(ring.what)).map((ring, index) => {
    const d = pathData(lines[index], true);
    return shape("g", { class: `ring ${ring.what}`, "data-what": ring.what, "data-id": ring.id }, shape("path", { class: "reach", d }), shape("path", { class: "line", d }));
  });
}

function hatch(id, size, ...lines) {
  return shape("pattern", { id, width: size, height: size, patternUnits: "userSpaceOnUse" }, lines.map((d) => shape("path", { d, class: `line-${id}` })));
}

// Hatches keep their size on the screen; an error is crossed both ways, a warning ruled one way.
export function patterns() {
  return shape("defs", {},
    hatch("hatch-keep-out", 8, "M0 8L8 0M-2 2L2 -2M6 10L10 6"),
    hatch("hatch-error", 14, "M0 14L14 0M-2 2L2 -2M12 16L16 12", "M0 0L14 14M-2 12L2 16M12 -2L16 2"),
    hatch("hatch-warning", 16, "M0 16L16 0M-2 2L2 -2M14 18L18 14"));
}

export function scalePatterns(svg, scale) {
  for (const pattern of svg.querySelectorAll("pattern")) pattern.setAttribute("patternTransform", `scale(${1 / scale})`);
}

function upright(x, y, ...children) {
  return shape("g", { transform: `translate(${x} ${-y})` }, shape("g", { class: "upright" }, ...children));
}

export function joint(each, pinned) {
  const d = pathData(each.path);
  const group = shape("g", { class: `joint ${each.kind}${pinned ? " pinned" : ""}`, "data-what": "joint", "data-id": each.id },
    shape("path", { class: "reach", d }), shape("path", { class: "line", d }));
  if (pinned) group.append(upright(...middle(each.path), shape("rect", { class: "pin", x: -4, y: -4, width: 8, height: 8 })));
  return group;
}

export function middle(path) {
  const spans = path.slice(1).map(([x, y], i) => Math.hypot(x - path[i][0], y - path[i][1]));
  let left = spans.reduce((a, b) => a + b, 0) / 2;
  for (let i = 0; i < spans.length; i += 1) {
    if (left <= spans[i]) {
      const t = spans[i] ? left / spans[i] : 0;
      return [path[i][0] + t * (path[i + 1][0] - path[i][0]), path[i][1] + t * (path[i + 1][1] - path[i][1])];
    }
    left -= spans[i];
  }
  return path[path.length - 1];
}

export function forbidden(each) {
  const d = pathData(each.path);
  return shape("g", { class: "joint forbidden", "data-what": "forbidden", "data-id": each.id }, shape("path", { class: "reach", d }), shape("path", { class: "line", d }));
}

export function wall(each) {
  return shape("g", { class: `wall${each.bearing ? " bearing" : ""}`, "data-what": "wall", "data-id": each.id },
    shape("path", { class: "body", d: pathData(each.outline, true) }), shape("path", { class: "reach", d: pathData(each.path) }));
}

export function edge(each) {
  return shape("path", { class: `edge ${each.kind}`, d: pathData(each.path) });
}

export function column(each) {
  return shape("g", { class: "column", "data-what": "column", "data-id": each.id },
    shape("path", { class: "boxout", d: pathData(each.outline, true) }),
    upright(...each.at, shape("circle", { class: "reach", r: 10 }), shape("rect", { class: "post", x: -3.5, y: -3.5, width: 7, height: 7 })));
}

export function penetration(each) {
  return shape("g", { class: `penetration ${each.kind}`, "data-what": "penetration", "data-id": each.id },
    shape("circle", { class: "hole", cx: each.at[0], cy: -each.at[1], r: each.radius }),
    upright(...each.at, shape("path", { class: "cross", d: "M-6 0H6M0 -6V6" }), shape("circle", { class: "reach", r: 10 })));
}

// A zone is taken by its border, so that the panels inside can still be chosen.
export function zone(each) {
  const d = pathData(each.outline, true);
  return shape("g", { class: "zone", "data-what": "zone", "data-id": each.id }, shape("path", { class: "border", d }), shape("path", { class: "reach", d }));
}

export function keepOut(each) {
  return shape("path", { class: "keep-out", d: pathData(each.outline, true), "data-what": "keep-out", "data-id": each.id });
}

// A wide faint line along a path, for a layout that is compared with another.
export function under(picture) {
  return shape("path", { class: "compared", d: picture.joints.map((each) => pathData(each.path)).join("") });
}
