// The picture or page of a PDF under the drawing: brought, scaled, squared up, moved, faded, locked, hidden, removed.

import { byId, el, swap } from "./dom.js";
import { button, tick } from "./controls.js";
import { askPage, askScale, askSides } from "./tracing_boxes.js";
import { ask, sendFile } from "./server.js";

const READABLE = "image/png,image/jpeg,image/webp,application/pdf,.png,.jpg,.jpeg,.webp,.pdf";
const MARKS = [[0x89, 0x50, 0x4e, 0x47], [0xff, 0xd8, 0xff], [0x52, 0x49, 0x46, 0x46]];
// How much of what is seen is left free around a picture that is laid anew.
const ROOM = 0.06;

// Whether a file is a picture, by its content.
export async function isPicture(blob) {
  const head = new Uint8Array(await blob.slice(0, 4).arrayBuffer());
  return MARKS.some((mark) => mark.every((byte, index) => head[index] === byte));
}

export class Tracing {
  // `page` gives what is drawn (`view`), does an action on the picture (`act`), takes a tool, and waits with words.
  constructor(page) {
    this.page = page;
    this.section = byId("under");
    this.pages = 0;
    this.file = el("input", { type: "file", id: "tracing-file", accept: READABLE, hidden: true, on: { change: () => this.chosen() } });
    document.body.append(this.file);
    byId("tracing").addEventListener("click", () => this.choose());
  }

  get tracing() {
    return this.page.view()?.picture.tracing ?? null;
  }

  get unit() {
    return this.page.view().picture.units.length;
  }

  choose() {
    this.page.closeMore();
    if (this.page.view()) this.file.click();
  }

  chosen() {
    const [file] = this.file.files;
    this.file.value = "";
    if (file) this.bring(file);
  }

  // Takes a file in and lays it into what is seen.
  async bring(file) {
    const name = encodeURIComponent(file.name || "picture");
    const seen = await this.page.busy("Reading the picture", (signal) => sendFile(`tracing/bring?name=${name}`, file, signal));
    if (!seen) return;
    this.pages = seen.pages;
    const page = seen.pages > 1 ? await askPage(seen.pages) : Math.min(seen.pages, 1);
    if (page !== null) await this.lay(seen.file, page, page > 1 ? null : seen.size);
  }

  async lay(file, page, known) {
    const size = known ?? (await this.page.busy("Reading the page", (signal) => ask("tracing/look", { file, page }, signal)))?.size;
    if (!size) return;
    if (!(await this.page.act({ do: "lay-tracing", file, page, size, view: this.view() }))) return;
    this.page.hint("Scale the picture by two points and a length, or square it up by four corners; then trace over it.");
    this.page.laid();
  }

  view() {
    const { camera } = this.page.drawing;
    const [width, height] = camera.size;
    const [dx, dy] = [width * ROOM, height * ROOM];
    return [...camera.toWorld(dx, height - dy), ...camera.toWorld(width - dx, dy)];
  }

  // Points that were tapped on the picture; nothing is lost where a length cannot be read.
  async picked(tool, points) {
    const action = {
      "tracing-move": () => ({ do: "move-tracing", by: [points[1][0] - points[0][0], points[1][1] - points[0][1]] }),
      "tracing-scale": () => askScale(this.unit, ({ text, way }) => this.tried({ do: "scale-tracing", ends: points, text, way })),
      "tracing-square": () => askSides(this.unit, ({ texts }) => this.tried({ do: "square-tracing", corners: points, texts })),
    }[tool.id]();
    const said = await action;
    if (said) await this.page.act(said);
    this.page.left();
  }

  // The action where it can be done; what is wrong with it is thrown.
  async tried(action) {
    await ask("tracing/lay", { tracing: this.page.view().state.tracing, action, units: this.unit });
    return action;
  }

  set(said) {
    return this.page.act({ do: "show-tracing", ...said });
  }

  show() {
    const { tracing } = this;
    this.section.hidden = !tracing;
    if (!tracing) return swap(this.section);
    const held = this.section.contains(document.activeElement) ? document.activeElement.dataset.key : null;
    const name = tracing.page ? `${tracing.file}, page ${tracing.page}` : tracing.file;
    swap(this.section,
      el("h2", {}, "Picture under the drawing"),
      el("p", {}, el("small", {}, `${name}. It stays on this machine, beside the job, and is on no sheet.`)),
      el("div", { class: "row" },
        button("Scale", () => this.page.take("tracing-scale"), { id: "tracing-scale", title: "Two points and the length between them" }),
        button("Square up", () => this.page.take("tracing-square"), { id: "tracing-square", title: "Four corners of something rectangular and its two sides" }),
        button("Move", () => this.page.take("tracing-move"), { id: "tracing-move", title: "A point of the picture, and where it belongs" })),
      this.slider(tracing),
      el("div", { class: "row" },
        tick("Shown", tracing.shown, (shown) => this.set({ shown })),
        tick("Locked", tracing.locked, (locked) => this.set({ locked })),
        tracing.page ? button("Page", () => this.turn(tracing), { id: "tracing-page" }) : null,
        button("Remove", () => this.page.act({ do: "remove-tracing" }), { id: "tracing-remove" })));
    if (held) this.section.querySelector(`[data-key="${CSS.escape(held)}"]`)?.focus({ preventScroll: true });
    return undefined;
  }

  slider(tracing) {
    const range = el("input", { id: "tracing-fade", type: "range", min: 5, max: 100, step: 5, value: Math.round(tracing.fade * 100), "data-key": "tracing fade" });
    range.addEventListener("input", () => this.page.drawing.underlay.fade(range.value / 100));
    range.addEventListener("change", () => this.set({ fade: range.value / 100 }));
    return el("label", { for: "tracing-fade", class: "fade" }, "Strength", range);
  }

  async turn({ file }) {
    if (!this.pages) this.pages = (await this.page.busy("Reading the pages", (signal) => ask("tracing/look", { file, page: 1 }, signal)))?.pages ?? 0;
    const page = this.pages && (await askPage(this.pages));
    if (page) await this.lay(file, page, null);
  }
}
