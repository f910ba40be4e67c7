// Finds things by place: boxes sorted into even cells.

const CELLS_EACH = 1.5;

export class Grid {
  constructor(items, boxOf) {
    this.entries = items.map((item) => ({ item, box: boxOf(item) }));
    this.cells = new Map();
    const sides = this.entries.map(({ box }) => Math.max(box[2] - box[0], box[3] - box[1])).sort((a, b) => a - b);
    this.cell = Math.max((sides[Math.floor(sides.length / 2)] ?? 1) * CELLS_EACH, 1);
    // What is far larger than the rest lies in too many cells to be sorted: it is always looked at.
    this.large = [];
    for (const entry of this.entries) {
      const spans = this.spans(entry.box);
      if ((spans[2] - spans[0] + 1) * (spans[3] - spans[1] + 1) > 400) this.large.push(entry);
      else this.each(spans, (key) => (this.cells.get(key) ?? this.cells.set(key, []).get(key)).push(entry));
    }
  }

  spans(box) {
    return box.map((value) => Math.floor(value / this.cell));
  }

  each([x0, y0, x1, y1], visit) {
    for (let x = x0; x <= x1; x += 1) for (let y = y0; y <= y1; y += 1) visit(`${x},${y}`);
  }

  // The items whose boxes touch a box.
  within(box) {
    const touches = (entry) => entry.box[0] <= box[2] && entry.box[2] >= box[0] && entry.box[1] <= box[3] && entry.box[3] >= box[1];
    const spans = this.spans(box);
    const cells = (spans[2] - spans[0] + 1) * (spans[3] - spans[1] + 1);
    if (!(cells < this.cells.size)) return this.entries.filter(touches).map((entry) => entry.item);
    const found = new Set(this.large);
    this.each(spans, (key) => this.cells.get(key)?.forEach((entry) => found.add(entry)));
    return [...found].filter(touches).map((entry) => entry.item);
  }

  at([x, y]) {
    return this.within([x, y, x, y]);
  }
}

export function boxOf(points) {
  let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const [x, y] of points) {
    x0 = Math.min(x0, x);
    y0 = Math.min(y0, y);
    x1 = Math.max(x1, x);
    y1 = Math.max(y1, y);
  }
  return [x0, y0, x1, y1];
}

// Whether a point lies inside a closed line.
export function inside(ring, [x, y]) {
  let odd = false;
  for (let i = 0, j = ring.length - 1; i < ring.length; j = i, i += 1) {
    const [ax, ay] = ring[i];
    const [bx, by] = ring[j];
    if (ay > y !== by > y && x < ((bx - ax) * (y - ay)) / (by - ay) + ax) odd = !odd;
  }
  return odd;
}

// The part of a straight stretch inside a box; null where there is none.
export function clipped([ax, ay], [bx, by], [x0, y0, x1, y1]) {
  let [low, high] = [0, 1];
  for (const [from, step, least, most] of [[ax, bx - ax, x0, x1], [ay, by - ay, y0, y1]]) {
    if (Math.abs(step) < 1e-9) {
      if (from < least || from > most) return null;
      continue;
    }
    const [one, two] = [(least - from) / step, (most - from) / step];
    low = Math.max(low, Math.min(one, two));
    high = Math.min(high, Math.max(one, two));
  }
  if (low >= high) return null;
  const at = (t) => [ax + t * (bx - ax), ay + t * (by - ay)];
  return [at(low), at(high)];
}
