// The panels: one shape for all that stand alike, so that a floor of thousands is drawn as a few.

import { shape } from "./dom.js";
import { Grid, boxOf, inside } from "./grid.js";
import { rings } from "./shapes.js";

export class Panels {
  constructor(layer) {
    this.batches = ["warning", "error"].map((status) => {
      const fill = shape("path", { class: `panels ${status}`, "fill-rule": "evenodd" });
      const hatch = shape("path", { class: `panels hatch ${status}`, "fill-rule": "evenodd" });
      layer.append(fill, hatch);
      return { status, nodes: [fill, hatch], d: "" };
    });
    this.picked = shape("path", { class: "panel-chosen", "fill-rule": "evenodd" });
    layer.append(this.picked);
    this.panels = [];
  }

  take(panels) {
    this.panels = panels;
    this.index = undefined;
    for (const batch of this.batches) {
      const d = panels.filter((each) => each.status === batch.status).map((each) => rings(each.outline, each.openings)).join("");
      if (d === batch.d) continue;
      batch.d = d;
      for (const node of batch.nodes) node.setAttribute("d", d);
    }
  }

  // Made when it is first asked for: while a joint is dragged nobody asks.
  get grid() {
    this.index ??= new Grid(this.panels, (panel) => boxOf(panel.outline));
    return this.index;
  }

  at(point) {
    return this.grid.at(point).find((panel) => inside(panel.outline, point) && !panel.openings.some((hole) => inside(hole, point))) ?? null;
  }

  choose(id) {
    const panel = id && this.panels.find((each) => each.id === id);
    this.picked.setAttribute("d", panel ? rings(panel.outline, panel.openings) : "");
    this.picked.dataset.id = panel ? id : "";
  }
}
