// Legs that are typed while something is drawn: "right 40 ft", or a length and a button for its direction.

import { byId } from "./dom.js";
import { boxOf } from "./grid.js";
import { ask } from "./server.js";

export class Entry {
  // `page` gives the drawing, the unit of bare numbers and what to do with a trouble.
  constructor(page, outlining) {
    this.page = page;
    this.outlining = outlining;
    byId("entry").addEventListener("submit", (event) => {
      event.preventDefault();
      this.go(byId("entry-text").value);
    });
    for (const way of ["right", "up", "left", "down"]) byId(`entry-${way}`).addEventListener("click", () => this.go(`${way} ${byId("entry-text").value}`));
    byId("entry-back").addEventListener("click", () => outlining.back());
    byId("entry-close").addEventListener("click", () => outlining.finish());
  }

  // Shown while a tool of several points is in hand.
  show() {
    const { tool, points, closable } = this.outlining;
    byId("entry").hidden = !(tool && (tool.taps === 0 || tool.taps === 2) && tool.id !== "measure" && !tool.free);
    byId("entry-back").disabled = !points.length;
    byId("entry-close").hidden = !tool?.closed;
    byId("entry-close").disabled = !closable;
  }

  async go(text) {
    const { outlining } = this;
    const from = outlining.points.at(-1) ?? this.page.origin();
    const answer = await this.page.attempt(() => ask("walk", { text, from, units: this.page.units() }));
    if (!answer) return;
    if (!outlining.points.length) outlining.add(from);
    byId("entry-text").value = "";
    for (const point of answer.points) {
      if (outlining.tool.closed && outlining.points.length > 2 && near(point, outlining.points[0])) return outlining.finish();
      outlining.add(point);
    }
    this.page.look(boxOf([...outlining.points, ...this.page.corners()]));
    byId("entry-text").focus();
  }
}

const near = (a, b) => Math.hypot(a[0] - b[0], a[1] - b[1]) < 1;
