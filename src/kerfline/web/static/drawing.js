// Draws a picture (see picture.py) as SVG. Draws only; decides and measures nothing.

import { shape, swap } from "./dom.js";
import { Camera } from "./camera.js";
import { handleShape, handlesOf } from "./handles.js";
import { Keyed } from "./keyed.js";
import { isFar, jointNames, labelled, panelLabels } from "./labels.js";
import { findingMarks, placed } from "./marks.js";
import { Panels } from "./panels.js";
import * as shapes from "./shapes.js";
import { dimensionStrings } from "./strings.js";
import { Underlay } from "./underlay.js";

const WORLD = ["tracing", "concrete", "panels", "rings", "zones", "keepOuts", "walls", "objects", "compared", "joints"];
const SCREEN = ["names", "labels", "findings", "strings"];
const ABOVE = ["measures", "handles", "ghost"];

export class Drawing {
  constructor(svg) {
    this.svg = svg;
    this.layers = {};
    const group = (cls, names) => shape("g", { class: cls }, names.map((name) => (this.layers[name] = shape("g", { class: `layer ${name}` }))));
    // The slab in its own mm, then what keeps its size on the screen, then what a hand holds.
    const [world, screen, above] = [group("world", WORLD), group("screen", SCREEN), group("above", ABOVE)];
    this.world = world;
    swap(svg, shapes.patterns(), world, screen, above);
    this.underlay = new Underlay(svg, this.layers.tracing, (tracing) => this.lost?.(tracing));
    this.panels = new Panels(this.layers.panels);
    this.keyed = Object.fromEntries(["joints", "walls", "objects", "names", "labels", "findings"].map((name) => [name, new Keyed(this.layers[name])]));
    this.camera = new Camera(svg, [world, above]);
    this.camera.onSettle((camera, stretched) => {
      if (stretched) shapes.scalePatterns(svg, camera.scale);
      this.fitTexts();
    });
    this.labels = [];
    this.chosen = [];
    this.editable = false;
    // What a joint is called on the drawing; undefined for its id.
    this.nameOf = undefined;
  }

  draw(picture, extra = {}) {
    const fresh = this.picture?.slab !== picture.slab;
    this.picture = picture;
    if (fresh) this.drawSlab(picture.slab);
    if (this.editable) this.underlay.show(picture.tracing);
    this.panels.take(picture.panels);
    this.drawJoints(picture, extra.state);
    this.labels = labelled(picture.panels);
    this.spots = placed(picture, this.labels);
    this.camera.show(picture.bounds);
    this.mark(this.chosen);
    this.fitTexts();
  }

  drawSlab(slab) {
    swap(this.layers.concrete, shapes.concrete(slab));
    swap(this.layers.rings, shapes.ringShapes(slab));
    swap(this.layers.zones, slab.zones.map(shapes.zone));
    swap(this.layers.keepOuts, slab.keepOuts.map(shapes.keepOut));
    const keyed = (list, kind, make) => list.map((each) => ({ key: `${kind} ${JSON.stringify(each)}`, make: () => make(each) }));
    this.keyed.walls.show([...keyed(slab.walls, "wall", shapes.wall), ...keyed(slab.edges, "edge", shapes.edge)]);
    this.keyed.objects.show([...keyed(slab.columns, "column", shapes.column), ...keyed(slab.penetrations, "penetration", shapes.penetration)]);
  }

  drawJoints(picture, state) {
    const pins = new Set((state?.joints ?? []).filter((j) => j.pinned).map((j) => j.id));
    this.keyed.joints.show([
      ...picture.slab.forbidden.map((each) => ({ key: `forbidden ${each.id} ${each.path}`, make: () => shapes.forbidden(each) })),
      ...picture.joints.map((each) => ({ key: `${each.id} ${each.kind} ${pins.has(each.id)} ${each.path}`, make: () => shapes.joint(each, pins.has(each.id)) })),
    ]);
  }

  // Lays another layout under this one, faintly; none takes it away.
  compare(picture) {
    swap(this.layers.compared, picture && shapes.under(picture));
  }

  ghost(...nodes) {
    swap(this.layers.ghost, ...nodes);
  }

  // What is at a place: what is drawn there, else the panel.
  hit(event) {
    const found = what(event.target);
    if (found || !this.picture) return found;
    const panel = this.panels.at(this.camera.toWorld(...this.camera.eventPoint(event)));
    return panel && { what: "panel", id: panel.id };
  }

  mark(items) {
    this.chosen = items;
    for (const node of this.svg.querySelectorAll(".chosen")) node.classList.remove("chosen");
    this.drawHandles(items.length === 1 ? items[0] : null);
    this.panels.choose(items.find((each) => each.what === "panel")?.id);
    for (const { what: kind, id } of items) {
      if (kind === "panel") continue;
      for (const node of this.svg.querySelectorAll(`[data-id="${CSS.escape(String(id))}"]`)) if (node.dataset.what === kind) node.classList.add("chosen");
    }
  }

  // A handle that has the focus keeps it when it is drawn anew; where it is gone the drawing takes it.
  drawHandles(chosen) {
    const held = document.activeElement?.closest?.(".handle");
    const focused = held && this.layers.handles.contains(held) ? held.dataset : null;
    const handles = this.editable && this.picture ? handlesOf(this.picture, chosen) : [];
    swap(this.layers.handles, handles.map((each) => handleShape(this.picture, chosen, each)));
    if (!focused) return;
    const again = [...this.layers.handles.children].find((node) => node.dataset.what === focused.what && node.dataset.id === focused.id);
    (again ?? this.svg).focus({ preventScroll: true });
  }

  // What is written by the room that there is on the screen.
  fitTexts() {
    const { camera, picture } = this;
    if (!picture) return;
    const far = isFar(this.labels, camera.scale);
    const box = camera.window();
    this.svg.classList.toggle("far", far);
    const labels = panelLabels(this.labels, camera, box);
    this.keyed.labels.show(labels);
    this.keyed.names.show(jointNames(picture.joints, camera, this.nameOf, labels));
    this.keyed.findings.show(findingMarks(this.spots, camera, far, box));
    for (const each of this.chosen.filter((item) => item.what === "finding")) this.layers.findings.querySelector(`[data-id="${each.id}"]`)?.classList.add("chosen");
    swap(this.layers.strings, dimensionStrings(picture, camera));
  }
}

export function what(target) {
  const node = target?.closest?.("[data-id]");
  return node?.dataset.id ? { what: node.dataset.what, id: node.dataset.id } : null;
}
