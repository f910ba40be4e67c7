// Brings a drawing or a building model in: dropped on the board or chosen, read, and asked about.

import { button } from "./controls.js";
import { byId, el, swap } from "./dom.js";
import { askAbout } from "./import_box.js";
import { sendFile } from "./server.js";
import { isPicture } from "./tracing.js";

export function bindImport(choose, file, sheet, hands) {
  choose.addEventListener("click", () => {
    hands.closeMore();
    file.click();
  });
  file.addEventListener("change", () => {
    if (file.files[0]) bring(file.files[0], hands);
    file.value = "";
  });
  sheet.addEventListener("dragover", (event) => event.preventDefault());
  sheet.addEventListener("drop", (event) => {
    event.preventDefault();
    const dropped = event.dataTransfer.files[0];
    if (dropped) bring(dropped, hands);
  });
}

async function bring(blob, hands) {
  if (await isPicture(blob)) {
    hands.trace(blob);
    return;
  }
  const said = new URLSearchParams();
  if (await isPdf(blob)) {
    const page = await askForPage();
    if (!page) return;
    for (const [key, text] of Object.entries(page)) if (text) said.set(key, text);
  }
  const seen = await hands.busy("Reading the file", (signal, work) => {
    said.set("work", work);
    return sendFile(`import/look?${said}`, blob, signal);
  });
  if (seen) askAbout(seen, hands);
}

const isPdf = async (blob) => (await blob.slice(0, 1024).text()).includes("%PDF-");

// Which page holds the plan and how it is scaled; null where the user changes his mind.
function askForPage() {
  return new Promise((done) => {
    const box = byId("dialog");
    const page = el("input", { id: "pdf-page", inputmode: "numeric", autocomplete: "off", value: "1" });
    const scale = el("input", { id: "pdf-scale", autocomplete: "off", placeholder: "1/8 in = 1 ft, or 1:100" });
    let answer = null;
    const take = () => { answer = { page: page.value.trim(), scale: scale.value.trim() }; };
    swap(box, el("h2", { id: "dialog-title" }, "A page of a PDF"),
      el("form", { method: "dialog", on: { submit: take } },
        el("div", { class: "row fields" }, el("label", { for: "pdf-page" }, "Page that holds the plan", page), el("label", { for: "pdf-scale" }, "Scale, where the page does not say it", scale)),
        el("div", { class: "row" }, button("Cancel", () => box.close()), el("button", { class: "main" }, "Read it"))));
    box.addEventListener("close", () => { swap(box); done(answer); }, { once: true });
    box.showModal();
    page.focus();
  });
}
