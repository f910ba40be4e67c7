// Words over the page: a message, the wait for something slow, and the tip under the pointer.

import { byId, el, swap } from "./dom.js";
import { title } from "./handles.js";
import { percent } from "./lists.js";

const READING_TIME = 9000;

let messageTimer;
export function message(words, ...buttons) {
  const node = byId("message");
  clearTimeout(messageTimer);
  swap(node, el("span", {}, words), ...buttons, el("button", { type: "button", on: { click: () => (node.hidden = true) } }, "Close"));
  node.hidden = false;
  if (!buttons.length) messageTimer = setTimeout(() => (node.hidden = true), READING_TIME);
}

// Says what is going on, and for how long, until it is done.
export async function busy(words, job) {
  const node = byId("busy");
  const start = Date.now();
  const write = () => swap(node, `${words} … ${Math.round((Date.now() - start) / 1000)} s`);
  write();
  node.hidden = false;
  const timer = setInterval(write, 500);
  const done = await job();
  clearInterval(timer);
  node.hidden = true;
  return done;
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
