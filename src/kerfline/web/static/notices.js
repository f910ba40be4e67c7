// Words below the drawing: what happened, what the user must know, and the wait for something slow.

import { byId, el, swap } from "./dom.js";
import { title } from "./handles.js";
import { percent } from "./lists.js";
import { showNotes } from "./boxes.js";

const READING_TIME = 9000;

// Notices in order; the last is shown. One that matters stays until it is closed.
const held = [];
let timer;

// `stay` keeps a notice until it is read; `key` replaces the notice of the same key.
export function notice(words, { actions = [], stay = actions.length > 0, key = words } = {}) {
  drop(key, false);
  // What only passes by makes room for what comes.
  if (held.length && !held.at(-1).stay) held.pop();
  held.push({ words, actions, stay, key });
  show();
}

export function drop(key, redraw = true) {
  const index = held.findIndex((each) => each.key === key);
  if (index >= 0) held.splice(index, 1);
  if (redraw && index >= 0) show();
}

function show() {
  const node = byId("message");
  clearTimeout(timer);
  const last = held.at(-1);
  node.hidden = !last;
  if (!last) return swap(node);
  const close = () => drop(last.key);
  const words = el("span", { class: "words" }, last.words);
  const buttons = last.actions.map(([name, action]) => el("button", { type: "button", on: { click: () => { close(); action(); } } }, name));
  const waiting = held.length > 1 ? el("small", {}, `1 of ${held.length}`) : null;
  const all = el("button", { type: "button", on: { click: () => showNotes("Notice", last.words.split("\n")) } }, "Read all");
  swap(node, words, waiting, ...buttons, all, last.fixed ? null : el("button", { type: "button", on: { click: close } }, "Close"));
  all.hidden = words.scrollHeight <= words.clientHeight + 2;
  if (!last.stay) timer = setTimeout(close, READING_TIME);
  return undefined;
}

// Says what is going on, and for how long, until it is done; `stop` ends it, `at` asks what it is at by now.
export async function busy(words, job, { stop, at, node = byId("busy") } = {}) {
  const start = Date.now();
  let step = "";
  const clock = el("span", {});
  const seconds = () => Math.round((Date.now() - start) / 1000);
  const write = () => swap(clock, `${words} … ${seconds()} s`, step ? el("small", {}, step) : null);
  const tick = async () => {
    write();
    step = (await at?.().catch(() => "")) || step;
  };
  write();
  swap(node, clock, stop ? el("button", { type: "button", id: "stop", on: { click: stop } }, "Stop") : null);
  node.hidden = false;
  const ticking = setInterval(tick, 500);
  try {
    return await job();
  } finally {
    clearInterval(ticking);
    node.hidden = true;
  }
}

// For who does not see the drawing: what was done, said when the hand rests.
export function announce(words) {
  swap(byId("said"), words);
}

export function showTip(picture, target, event) {
  const tip = byId("tip");
  const words = target && tipWords(picture, target);
  tip.hidden = !words;
  if (!words) return;
  tip.textContent = words;
  const box = byId("sheet").getBoundingClientRect();
  const [x, y] = [event.clientX - box.left, event.clientY - box.top];
  tip.style.left = `${Math.min(x + 14, box.width - tip.offsetWidth - 8)}px`;
  tip.style.top = `${y + 18 + tip.offsetHeight > box.height ? y - tip.offsetHeight - 10 : y + 18}px`;
}

function tipWords(picture, { what, id }) {
  if (what === "panel") {
    const panel = picture.panels.find((each) => each.id === id);
    return panel && `${id}: ${panel.length} × ${panel.width}\naspect ${panel.aspect}, ${percent(panel.share)} of ${panel.limit}`;
  }
  if (what === "joint") {
    const joint = picture.joints.find((each) => each.id === id);
    return joint && `${id}: ${joint.kind}, ${joint.length}\n${joint.note}`;
  }
  if (what === "finding") {
    const finding = picture.findings[Number(id)];
    return finding && `${finding.severity}: ${finding.message}`;
  }
  if (what === "end") return "Drag to lengthen or shorten";
  return what === "vertex" ? "Drag to move; Delete takes it away" : title({ what, id });
}
