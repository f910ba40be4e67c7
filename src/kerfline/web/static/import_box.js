// The box in which a drawing or a building model is asked about: its floor, its unit, the slab, each layer.

import { button } from "./controls.js";
import { byId, el, shape, swap } from "./dom.js";
import { COLOURS, drawMap, yardstick } from "./import_map.js";
import { ask } from "./server.js";

const ROLES = [
  ["", "not used"],
  ["outline", "outline"],
  ["openings", "openings"],
  ["walls", "walls"],
  ["columns", "columns"],
  ["penetrations", "drains and pipes"],
  ["keep_outs", "keep-outs"],
  ["joints", "joints"],
];
const UNIT_NAMES = { ft: "feet", in: "inches", m: "metres", mm: "millimetres" };

export function askAbout(seen, hands) {
  new ImportBox(seen, hands).open();
}

class ImportBox {
  constructor(seen, hands) {
    Object.assign(this, { hands, box: byId("dialog"), roles: new Map(), storey: "", floor: "", offers: null, stop: null, taken: false, typed: false });
    this.see(seen);
    // Where the drawing leaves its unit open, only the user can say it.
    this.unit = seen.known ? seen.unit : "";
    this.declared = seen.declared;
    this.trouble = el("p", { role: "alert", class: "trouble" });
    this.wait = el("p", { class: "wait", role: "status", hidden: true });
  }

  // What was read, for the first time or anew.
  see(seen) {
    this.seen = seen;
    // Where the slab is open nothing is chosen for the user, neither a figure nor the layer of the outline.
    this.slab = seen.slab || (seen.candidates.length ? null : 0);
    // What the model says itself comes before what the job had, and what was typed before both.
    if (!this.typed) this.thickness = seen.thickness || this.hands.thickness();
    if (seen.asks) this.offers = seen.candidates;
    for (const layer of seen.layers) if (!this.roles.has(layer.name)) this.roles.set(layer.name, layer.role);
  }

  open() {
    this.show();
    this.box.addEventListener("close", () => this.left(), { once: true });
    this.box.showModal();
    this.box.querySelector("input:checked")?.focus({ preventScroll: true });
  }

  // The box is gone: nothing goes on behind it, and the program lets the file go.
  left() {
    this.stop?.();
    // What was taken may stand in the box already, in words.
    if (!this.box.open) swap(this.box);
    if (this.taken) return;
    ask("import/leave", { name: this.seen.name }).catch(() => {});
    this.hands.left();
  }

  show() {
    const { seen } = this;
    this.map = shape("svg", { class: "map", role: "img", "aria-label": "What was drawn, each layer in its colour" });
    this.draw();
    const focus = document.activeElement?.dataset?.key;
    this.form = el("div", {},
      this.floorQuestion(),
      seen.measured ? this.unitOfTheJob() : this.unitQuestion(),
      this.candidateQuestion(),
      this.map,
      ...(seen.asks ? [] : this.layerQuestions()),
      seen.notes.length ? el("details", {}, el("summary", {}, "How it was read"), el("ul", { class: "notes", tabindex: 0 }, seen.notes.map((note) => el("li", {}, note)))) : null);
    swap(this.box, el("h2", { id: "dialog-title" }, seen.model ? "A building model" : "A drawing"), this.form,
      el("div", { class: "foot" }, this.trouble, this.wait,
        el("div", { class: "row" },
          button("Cancel", () => this.box.close()),
          button("Take it", () => this.take(), { class: "main", disabled: !this.unit || this.slab === null || Boolean(seen.asks) }))));
    if (focus) this.box.querySelector(`[data-key="${CSS.escape(focus)}"]`)?.focus();
  }

  draw() {
    drawMap(this.map, this, (number) => (this.seen.asks ? this.again({ floor: String(number) }) : this.pick(number)));
  }

  pick(number) {
    this.slab = number;
    this.show();
  }

  // What a layer is; who says that it is the outline while the slab is open means that layer.
  say(layer, role) {
    this.roles.set(layer.name, role);
    if (role === "outline" && this.slab === null) this.pick(0);
    else this.draw();
  }

  // Does what takes a while, with nothing to touch in the box but the button that stops it.
  async doing(words, job) {
    const caught = async (run) => {
      try {
        return await run();
      } catch (trouble) {
        swap(this.trouble, trouble.name === "AbortError" ? "Stopped." : trouble.message);
        return null;
      }
    };
    const held = (stop) => (this.stop = stop);
    const [take] = this.box.querySelectorAll(".foot .main");
    swap(this.trouble);
    this.form.inert = take.disabled = true;
    const answer = await this.hands.busy(words, job, { node: this.wait, caught, held });
    this.stop = null;
    this.form.inert = take.disabled = false;
    return answer;
  }

  // The same file in another unit, or another floor of it.
  async again(change) {
    const said = { unit: this.unit, storey: this.storey, floor: this.floor, ...change };
    const next = await this.doing("Reading the file", (signal, work) => ask("import/look-again", { name: this.seen.name, ...said, work }, signal));
    if (next) {
      Object.assign(this, said);
      this.see(next);
    }
    this.show();
  }

  async take() {
    const roles = Object.fromEntries([...this.roles].filter(([, role]) => role));
    const said = { name: this.seen.name, unit: this.unit, roles, thickness: this.thickness, slab: this.slab };
    const answer = await this.doing("Laying out", (signal, work) => ask("import/take", { ...said, work }, signal));
    if (!answer) return this.trouble.scrollIntoView({ block: "nearest" });
    this.taken = true;
    this.box.close();
    return this.hands.take(answer);
  }

  layerQuestions() {
    const thickness = el("input", { id: "import-thickness", "data-key": "thickness", value: this.thickness, autocomplete: "off", on: { input: () => Object.assign(this, { thickness: thickness.value, typed: true }) } });
    return [
      el("p", {}, `Say what each ${this.seen.model ? "part" : "layer"} is. What is not used is left out.`),
      this.layerTable(),
      el("p", {}, el("label", { for: "import-thickness" }, `Slab thickness (${this.seen.depthUnit}) `), thickness),
    ];
  }

  layerTable() {
    const row = (layer, index) => {
      const select = el("select", { id: `layer-${index}`, on: { change: () => this.say(layer, select.value) } },
        ROLES.map(([role, words]) => el("option", { value: role, selected: this.roles.get(layer.name) === role }, words)));
      const things = this.seen.model ? ["piece", "pieces"] : ["curve", "curves"];
      const words = `${layer.count} ${things[layer.count === 1 ? 0 : 1]}${layer.hidden ? ", off in the drawing" : ""}`;
      return el("tr", {}, el("td", {}, el("label", { for: `layer-${index}` }, el("span", { class: `swatch layer-${index % COLOURS}` }), layer.name)), el("td", {}, words), el("td", {}, select));
    };
    return el("table", {}, el("thead", {}, el("tr", {}, el("th", {}, this.seen.model ? "Part" : "Layer"), el("th", {}, "Holds"), el("th", {}, "It is"))), el("tbody", {}, this.seen.layers.map(row)));
  }

  // Of a building model: the storey, and which of its floors where several can be meant.
  floorQuestion() {
    const { seen } = this;
    if (!seen.model || !(this.offers || seen.storeys.length > 1)) return null;
    const storey = el("select", { id: "storey", "data-key": "storey", on: { change: () => { this.offers = null; this.again({ storey: storey.value, floor: "" }); } } },
      [["", "whichever lies on ground"], ...seen.storeys.map((name) => [name, name])].map(([value, words]) => el("option", { value, selected: this.storey === value }, words)));
    const radio = (value, words) => el("label", { class: "candidate" },
      el("input", { type: "radio", name: "floor", value, "data-key": `floor ${value}`, checked: this.floor === value, on: { change: () => this.again({ floor: value }) } }), ` ${words}`);
    const offers = (this.offers ?? []).map((each) => radio(String(each.number), `${each.number}: ${each.words}`));
    return el("fieldset", { class: "units" },
      el("legend", {}, "Which floor is the slab on ground?"),
      seen.asks ? el("p", {}, `${seen.asks[0].toUpperCase()}${seen.asks.slice(1)}.`) : null,
      seen.storeys.length > 1 ? el("p", {}, el("label", { for: "storey" }, "Storey "), storey) : null,
      offers,
      offers.length > 1 && seen.together ? radio("all", "all of them, as one slab") : null);
  }

  // Which figure is the slab: by its number here, or by a tap on the drawing.
  candidateQuestion() {
    const { candidates, asks } = this.seen;
    if (!candidates.length || asks) return null;
    const radio = (number, words) => el("label", { class: "candidate" },
      el("input", { type: "radio", name: "slab", value: number, "data-key": `slab ${number}`, checked: this.slab === number, on: { change: () => this.pick(number) } }), ` ${words}`);
    return el("fieldset", { class: "units" },
      el("legend", {}, this.seen.slab ? "The slab" : "Which of these is the slab?"),
      candidates.map((each) => radio(each.number, each.words)),
      radio(0, "the layer that is said to be the outline"));
  }

  unitQuestion() {
    const said = this.declared ? `The drawing says ${this.declared}.` : "The drawing does not say its unit, or says one that cannot be right.";
    const card = (each) => el("label", { class: "card" }, el("span", {}, this.unitRadio(each), ` ${UNIT_NAMES[each.unit]}: ${each.text}`), yardstick(each), each.likely ? null : el("small", {}, "an unusual size for a slab"));
    return el("fieldset", { class: "units" },
      el("legend", {}, "In which unit is it drawn?"),
      el("p", {}, `${said} Each picture shows the drawing beside a car.`),
      el("div", { class: "choicesgrid" }, this.seen.units.map(card)));
  }

  // Where its size is certain only how lengths are written is left to say.
  unitOfTheJob() {
    return el("fieldset", { class: "units" },
      el("legend", {}, "Unit of the job"),
      this.seen.units.map((each) => el("label", { class: "candidate" }, this.unitRadio(each), ` ${UNIT_NAMES[each.unit]}: ${each.text}`)));
  }

  unitRadio({ unit }) {
    return el("input", { type: "radio", name: "unit", value: unit, "data-key": `unit ${unit}`, checked: unit === this.unit, on: { change: () => this.again({ unit }) } });
  }
}
