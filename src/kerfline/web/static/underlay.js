// Draws the picture that lies under the drawing: one image in the slab's own mm, the old one until the new is there.

import { shape, swap } from "./dom.js";

export class Underlay {
  // `lost` is told when a picture cannot be had.
  constructor(svg, layer, lost) {
    this.svg = svg;
    this.layer = layer;
    this.lost = lost;
    this.source = "";
  }

  show(tracing) {
    const shown = tracing?.shown ? tracing : null;
    this.svg.classList.toggle("traced", Boolean(shown));
    this.tracing = shown;
    if (!shown) {
      this.source = "";
      this.coming = null;
      swap(this.layer);
    } else if (this.source !== shown.source) this.load(shown);
    else this.place(shown, this.coming ?? this.layer.firstChild);
  }

  load(tracing) {
    this.source = tracing.source;
    const node = shape("image", { class: "tracing", href: tracing.source, preserveAspectRatio: "none", "data-what": "tracing", "data-id": "picture" });
    this.coming = node;
    const arrived = (job) => () => {
      if (this.coming !== node) return;
      this.coming = null;
      job();
    };
    node.addEventListener("load", arrived(() => {
      swap(this.layer, node);
      this.place(this.tracing, node);
      this.layer.dataset.shows = tracing.source;
    }));
    node.addEventListener("error", arrived(() => {
      swap(this.layer);
      this.lost(tracing);
    }));
    this.place(tracing, node);
    if (this.layer.firstChild) node.setAttribute("opacity", 0);
    // An image is fetched only once it stands in the page.
    this.layer.append(node);
  }

  place(tracing, node) {
    if (!node) return;
    const [x, y, width, height] = tracing.box;
    for (const [name, value] of Object.entries({ x, y, width, height, opacity: tracing.fade, transform: `matrix(${tracing.matrix})` })) node.setAttribute(name, value);
    node.classList.toggle("loose", !tracing.locked && !tracing.held);
  }

  // While the slider moves.
  fade(share) {
    this.layer.firstChild?.setAttribute("opacity", share);
  }
}

// The corners of a picture on the plan, mm, y up.
export function cornersOf({ box: [x, y, width, height], matrix: [a, b, c, d, e, f] }) {
  return [[x, y], [x + width, y], [x + width, y + height], [x, y + height]].map(([u, v]) => [a * u + c * v + e, -(b * u + d * v + f)]);
}
