// A layer whose nodes are kept as long as their keys stay: only what changed is made anew.

export class Keyed {
  constructor(layer) {
    this.layer = layer;
    this.nodes = new Map();
  }

  // Entries are { key, make, place? }; `place` is told every node that stays or comes.
  show(entries) {
    const before = this.nodes;
    this.nodes = new Map();
    const fresh = [];
    for (const { key, make, place } of entries) {
      if (this.nodes.has(key)) continue;
      let node = before.get(key);
      before.delete(key);
      if (!node) {
        node = make();
        fresh.push(node);
      }
      place?.(node);
      this.nodes.set(key, node);
    }
    for (const node of before.values()) node.remove();
    this.layer.append(...fresh);
  }
}
