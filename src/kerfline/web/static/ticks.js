// Which cuts are done, kept in the browser; another layout has other ticks.

export class Ticks {
  constructor(key) {
    this.key = key;
    this.done = new Set();
    this.lasting = true;
    try {
      for (const id of JSON.parse(localStorage.getItem(key) ?? "[]")) this.done.add(String(id));
    } catch {
      this.lasting = false;
    }
  }

  has(id) {
    return this.done.has(id);
  }

  set(id, on) {
    if (on) this.done.add(id);
    else this.done.delete(id);
    try {
      localStorage.setItem(this.key, JSON.stringify([...this.done].sort()));
    } catch {
      this.lasting = false;
    }
  }
}
