// What is chosen: one thing or several; of one thing perhaps a point.

// Kinds that can be chosen together; of anything else there is one at a time.
export const TOGETHER = ["joint", "wall", "column", "penetration", "keep-out", "zone", "forbidden", "opening"];

export function same(one, other) {
  return one?.what === other?.what && one?.id === other?.id;
}

export class Selection {
  constructor(onChange) {
    this.items = [];
    this.onChange = onChange;
  }

  // The one thing that is chosen; null where there is none, or several.
  get one() {
    return this.items.length === 1 ? this.items[0] : null;
  }

  has(target) {
    return this.items.some((each) => same(each, target));
  }

  set(items) {
    this.items = items;
    this.onChange();
  }

  only(target) {
    this.set(target ? [{ what: target.what, id: target.id, at: target.at, part: target.part ?? null }] : []);
  }

  // Adds a thing to those chosen, or takes it out again.
  toggle(target) {
    if (!TOGETHER.includes(target.what)) return this.only(target);
    const others = this.items.filter((each) => TOGETHER.includes(each.what) && !same(each, target)).map((each) => ({ ...each, part: null }));
    this.set(this.has(target) ? others : [...others, { what: target.what, id: target.id, part: null }]);
  }

  pick(part) {
    const had = this.one?.part ?? null;
    if (!this.one || (had?.kind === part?.kind && had?.index === part?.index)) return;
    this.set([{ ...this.one, part: part && { kind: part.kind, index: part.index } }]);
  }
}
