// On a small screen: the lists and details as a sheet from below, and what is rarely changed under More.

import { byId, swap } from "./dom.js";

const SMALL = window.matchMedia("(max-width: 900px)");
const HEIGHTS = ["low", "half", "high"];

export class Phone {
  constructor() {
    this.side = document.querySelector(".side");
    this.grip = byId("grip");
    this.set("low");
    this.grip.addEventListener("click", () => this.set(HEIGHTS[(HEIGHTS.indexOf(this.height) + 1) % HEIGHTS.length]));
    this.bindDrag();
    SMALL.addEventListener("change", () => this.arrange());
    this.arrange();
  }

  get small() {
    return SMALL.matches;
  }

  arrange() {
    const choices = document.querySelector(".choices");
    if (this.small) byId("more-list").prepend(choices);
    else document.querySelector(".bar .actions").before(choices);
  }

  set(height) {
    this.height = height;
    this.side.dataset.height = height;
    this.grip.setAttribute("aria-expanded", String(height !== "low"));
  }

  // Shows what was chosen; the words stand on the grip, so that the sheet may stay low.
  chose(words) {
    swap(byId("grip-words"), words || "Details and lists");
    if (this.small && words && this.height === "low") this.set("half");
    if (this.small && !words && this.height === "half") this.set("low");
  }

  bindDrag() {
    let from = null;
    this.grip.addEventListener("pointerdown", (event) => {
      from = event.clientY;
      this.grip.setPointerCapture(event.pointerId);
    });
    this.grip.addEventListener("pointerup", (event) => {
      const by = event.clientY - (from ?? event.clientY);
      from = null;
      if (Math.abs(by) < 24) return;
      const next = HEIGHTS.indexOf(this.height) + (by < 0 ? 1 : -1) * (Math.abs(by) > 260 ? 2 : 1);
      this.set(HEIGHTS[Math.max(0, Math.min(2, next))]);
      // The click that follows a drag is none.
      this.grip.addEventListener("click", (click) => click.stopImmediatePropagation(), { capture: true, once: true });
    });
  }
}
