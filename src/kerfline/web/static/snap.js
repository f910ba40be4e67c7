// Where a moving line or point comes to rest: on a wall, corner, column or joint near by, else on the grid.

const NEAR = 9;

// The longest stretch of a path, which says how the whole runs.
export function longestStretch(path) {
  const stretches = path.slice(1).map((point, i) => [path[i], point]);
  const size = ([p, q]) => Math.hypot(q[0] - p[0], q[1] - p[1]);
  return stretches.reduce((best, each) => (size(each) > size(best) + 1e-6 ? each : best));
}

// A joint moves square to its longest stretch; a bent one also along it, whichever way the pointer went further.
export function snapLine(picture, joint, by, scale, free = false) {
  const [a, b] = longestStretch(joint.path);
  const size = Math.hypot(b[0] - a[0], b[1] - a[1]) || 1;
  const way = [(b[0] - a[0]) / size, (b[1] - a[1]) / size];
  const square = [-way[1], way[0]];
  const along = by[0] * way[0] + by[1] * way[1];
  if (joint.path.length > 2 && Math.abs(along) > Math.abs(by[0] * square[0] + by[1] * square[1])) {
    const shift = Math.round(along / picture.grid) * picture.grid;
    return { by: [shift * way[0], shift * way[1]], words: "" };
  }
  const at = (p) => p[0] * square[0] + p[1] * square[1];
  const start = at(a);
  const wished = start + by[0] * square[0] + by[1] * square[1];
  let best = free ? null : nearest(lineTargets(picture, joint.id, way, at), wished, NEAR / scale);
  if (!best) {
    const base = at([picture.bounds[0], picture.bounds[1]]);
    const place = base + Math.round((wished - base) / picture.grid) * picture.grid;
    best = { place, words: "" };
  }
  const shift = best.place - start;
  return { by: [shift * square[0], shift * square[1]], words: best.words };
}

function nearest(targets, wished, reach) {
  let best = null;
  for (const target of targets) {
    const off = Math.abs(target.place - wished);
    if (off <= reach && (!best || off < best.off - 1e-6)) best = { ...target, off };
  }
  return best;
}

function lineTargets(picture, id, way, at) {
  const along = ([p, q]) => {
    const size = Math.hypot(q[0] - p[0], q[1] - p[1]) || 1;
    return Math.abs(((q[0] - p[0]) * way[1] - (q[1] - p[1]) * way[0]) / size) < 0.02;
  };
  const out = [];
  for (const wall of picture.slab.walls) {
    for (let i = 1; i < wall.path.length; i += 1) {
      if (along([wall.path[i - 1], wall.path[i]])) out.push({ place: at(wall.path[i]), words: `under wall ${wall.id}` });
    }
  }
  for (const joint of picture.joints) {
    if (joint.id === id) continue;
    for (let i = 1; i < joint.path.length; i += 1) {
      if (along([joint.path[i - 1], joint.path[i]])) out.push({ place: at(joint.path[i]), words: `in line with ${joint.id}` });
    }
  }
  for (const corner of picture.slab.corners) out.push({ place: at(corner), words: "at a corner" });
  for (const column of picture.slab.columns) out.push({ place: at(column.at), words: `at column ${column.id}` });
  for (const each of picture.slab.penetrations) out.push({ place: at(each.at), words: `through ${each.kind} ${each.id}` });
  return out;
}

export function snapPoint(picture, point, scale, but = "") {
  const reach = NEAR / scale;
  const points = [
    ...picture.slab.corners.map((at) => ({ at, words: "at a corner" })),
    ...picture.slab.outline.map((at) => ({ at, words: "at a corner" })),
    ...picture.slab.columns.map((each) => ({ at: each.at, words: `at column ${each.id}` })),
    ...picture.slab.penetrations.map((each) => ({ at: each.at, words: `at ${each.kind} ${each.id}` })),
    ...picture.slab.walls.flatMap((wall) => wall.path.map((at) => ({ at, words: `end of wall ${wall.id}` }))),
    ...picture.joints.filter((joint) => joint.id !== but).flatMap((joint) => [joint.path[0], joint.path[joint.path.length - 1]].map((at) => ({ at, words: `end of ${joint.id}` }))),
  ];
  let best = null;
  for (const each of points) {
    const off = Math.hypot(each.at[0] - point[0], each.at[1] - point[1]);
    if (off <= reach && (!best || off < best.off)) best = { ...each, off };
  }
  return best ?? { at: onGrid(picture, point), words: "" };
}

// On an edge of the concrete or a wall near by, straight across to it; undefined where none is near.
export function snapEdge({ slab }, point, scale) {
  const rings = [slab.outline, ...slab.openings].map((ring) => [...ring, ring[0]]).filter((ring) => ring.length > 2);
  let best;
  for (const path of [...rings, ...slab.walls.map((wall) => wall.path)]) {
    for (let i = 1; i < path.length; i += 1) {
      const at = footOf(point, path[i - 1], path[i]);
      const off = at ? Math.hypot(at[0] - point[0], at[1] - point[1]) : Infinity;
      if (off <= NEAR / scale && (!best || off < best.off - 1e-6)) best = { at, off };
    }
  }
  return best?.at;
}

// The foot of a point on a stretch; null where it lies beyond its ends.
function footOf([px, py], [ax, ay], [bx, by]) {
  const [dx, dy] = [bx - ax, by - ay];
  const share = ((px - ax) * dx + (py - ay) * dy) / (dx * dx + dy * dy);
  return share >= 0 && share <= 1 ? [ax + share * dx, ay + share * dy] : null;
}

// The end of a bent joint is drawn to a point near by, or to where its own stretch would end (`near`, mm).
export function snapEnd(picture, joint, point, scale, free) {
  if (free) return { at: onGrid(picture, point), words: "", near: 0 };
  return { ...snapPoint(picture, point, scale, joint.id), near: NEAR / scale };
}

// A bend rests on a point near by, else square to the points beside it, else on the grid.
export function snapBend(picture, id, points, index, point, scale, free) {
  const rest = onGrid(picture, point);
  if (free) return { at: rest, words: "" };
  const spot = snapPoint(picture, point, scale, id);
  if (spot.words) return spot;
  const beside = [points[index - 1], points[index + 1]].filter(Boolean);
  return lined(rest, point, beside, NEAR / scale);
}

// A corner rests square to the corners beside it or in line with another, else on the grid.
export function snapCorner(picture, points, index, point, scale, free) {
  const rest = onGrid(picture, point);
  if (free) return { at: rest, words: "" };
  const count = points.length;
  const beside = [points[(index + count - 1) % count], points[(index + 1) % count]];
  const square = lined(rest, point, beside, NEAR / scale);
  if (square.words) return { ...square, words: "square to the next corner" };
  const rings = picture.slab.rings.flatMap((ring) => ring.corners.map((corner) => corner.at));
  const others = rings.filter(([x, y]) => x !== points[index][0] || y !== points[index][1]);
  const row = lined(rest, point, others, NEAR / scale);
  return row.words ? { ...row, words: "in line with another corner" } : row;
}

// Each coordinate of a point as one of its neighbours has it, where that is near, so that stretches run square.
function lined(rest, point, beside, reach) {
  const at = rest.map((value, axis) => {
    const near = beside.map((each) => each[axis]).filter((each) => Math.abs(each - point[axis]) <= reach);
    return near.length ? near.reduce((best, each) => (Math.abs(each - point[axis]) < Math.abs(best - point[axis]) ? each : best)) : value;
  });
  const square = at.some((value, axis) => beside.some((each) => each[axis] === value));
  return { at, words: square ? "square to the next point" : "" };
}

export function onGrid(picture, [x, y]) {
  const [x0, y0] = picture.bounds;
  const round = (value, base) => base + Math.round((value - base) / picture.grid) * picture.grid;
  return [round(x, x0), round(y, y0)];
}

// Keeps a second point square to the first where it is nearly so.
export function squareTo([ax, ay], [bx, by]) {
  const [dx, dy] = [Math.abs(bx - ax), Math.abs(by - ay)];
  if (dx < dy * 0.09) return [ax, by];
  if (dy < dx * 0.09) return [bx, ay];
  return [bx, by];
}

export function snapShift(picture, by) {
  return by.map((value) => Math.round(value / picture.grid) * picture.grid);
}
