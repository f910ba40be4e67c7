// An empty board: the outline is drawn or typed, and with a name and a thickness a slab begins.

import { button } from "./controls.js";
import { byId, el, swap } from "./dom.js";

const FT = 304.8;

export function blankPicture(units) {
  const metric = units === "m" || units === "mm";
  return {
    job: "New slab", display: metric ? "metric" : "feet-inches", units: { length: units, depth: metric ? "mm" : "in" }, grid: metric ? 10 : 25.4,
    bounds: metric ? [0, 0, 12000, 9000] : [0, 0, 40 * FT, 30 * FT],
    slab: { outline: [], openings: [], rings: [], walls: [], columns: [], penetrations: [], zones: [], keepOuts: [], forbidden: [], edges: [], corners: [], thickness: "" },
    joints: [], panels: [], findings: [], dimensions: [], notes: [], tracing: null,
  };
}

export class Start {
  // `page` is told when the unit changes and when a slab is to begin.
  constructor(page) {
    this.page = page;
    this.units = "ft";
    this.points = null;
  }

  show() {
    document.body.classList.add("blank");
    const input = (id, words, value = "") => el("label", { for: id }, words, el("input", { id, value, autocomplete: "off", spellcheck: "false" }));
    const units = el("select", { id: "start-units", on: { change: () => this.take(units.value) } }, ["ft", "in", "m", "mm"].map((unit) => el("option", {}, unit)));
    swap(byId("details"),
      el("h2", {}, "A new slab"),
      el("form", { id: "start", class: "start", on: { submit: (event) => { event.preventDefault(); this.begin(); } } },
        input("start-name", "Name"),
        el("label", { for: "start-units" }, "Unit", units),
        el("label", { for: "start-thickness" }, el("span", {}, "Thickness (", el("span", { id: "start-depth" }, "in"), ")"), el("input", { id: "start-thickness", autocomplete: "off" })),
        input("start-size", "Size, or the way round it"),
        el("p", {}, el("small", {}, 'Such as "40 x 28", or "right 40, up 28, left 12, down 8, left 28". Or leave it empty and draw the outline on the board: tap its corners, or type each leg below the tools.')),
        el("p", { id: "start-trouble", class: "trouble", role: "alert" }),
        el("div", { class: "row" },
          el("button", { class: "main" }, "Begin the slab"),
          button("Lay a picture or PDF underneath", () => this.page.trace(), { id: "start-tracing" }))));
    byId("start-name").focus({ preventScroll: true });
  }

  take(units) {
    this.units = units;
    swap(byId("start-depth"), units === "ft" || units === "in" ? "in" : "mm");
    this.page.unit(units);
  }

  // An outline that was drawn waits for a name and a thickness.
  drawn(points) {
    this.points = points;
    byId("start-size").value = "";
    const missing = ["start-name", "start-thickness"].find((id) => !byId(id).value.trim());
    if (!missing) return this.begin();
    swap(byId("start-trouble"), "The outline is drawn: write a name and a thickness, then begin the slab.");
    this.page.outlined(points);
    byId(missing).focus();
    return undefined;
  }

  async begin() {
    const size = byId("start-size").value.trim();
    const said = { name: byId("start-name").value, thickness: byId("start-thickness").value, units: this.units, size, points: size ? [] : (this.points ?? []), tracing: this.page.tracing() };
    try {
      const answer = await this.page.ask(said);
      document.body.classList.remove("blank");
      this.page.begun(answer);
    } catch (refused) {
      swap(byId("start-trouble"), refused.message);
    }
  }
}
