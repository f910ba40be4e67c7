// What is typed while something is drawn: "right 40 ft", "at 12, 8 right 10", or a length and a button for its direction.

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
    byId("entry-text").addEventListener("keydown", (event) => {
      if (event.key !== "Escape") return;
      event.preventDefault();
      byId("drawing").focus({ preventScroll: true });
    });
  }

  // By a key from wherever the focus is; Escape leads back.
  write() {
    if (byId("entry").hidden) return false;
    byId("entry-text").focus();
    return true;
  }

  // Shown while a tool that draws is in hand; what is one point has no legs.
  show() {
    const { tool, points, closable } = this.outlining;
    byId("entry").hidden = !(tool?.taps >= 0 && tool.id !== "measure" && !tool.free);
    byId("entry").classList.toggle("spots", tool?.taps === 1);
    byId("entry-text").placeholder = tool?.taps === 1 ? "at 12, 8" : tool?.closed ? "right 40 ft, up 28 ft" : "at 12, 8 right 10";
    byId("entry-back").disabled = !points.length;
    byId("entry-close").hidden = !tool?.closed;
    byId("entry-close").disabled = !closable;
  }

  async go(text) {
    const { outlining } = this;
    const origin = this.page.origin();
    const from = outlining.points.at(-1) ?? origin;
    const answer = await this.page.attempt(() => ask("walk", { text, from, origin, units: this.page.units() }));
    if (!answer) return;
    byId("entry-text").value = "";
    // A point that is there already is one point: where the legs begin is the last one drawn, or comes first.
    for (const point of meant(outlining.tool, answer.points)) {
      if (outlining.tool.closed && outlining.points.length > 2 && near(point, outlining.points[0])) return outlining.finish();
      await outlining.add(point);
    }
    this.page.look(boxOf([...outlining.points, ...this.page.corners()]));
    byId("entry-text").focus();
  }
}

// What has one point stands at the last, an opening lies between the first and the last, and legs of a wall are walls.
function meant(tool, points) {
  if (tool.taps === 1) return points.slice(-1);
  if (tool.taps !== 2 || points.length < 3) return points;
  if (tool.id === "opening") return [points[0], points.at(-1)];
  return points.slice(1).flatMap((point, index) => [points[index], point]);
}

const near = (a, b) => Math.hypot(a[0] - b[0], a[1] - b[1]) < 1;
