// The menu of what can be done at a place: by the right button, a long press, or the menu key.

import { byId, el, swap } from "./dom.js";

// Entries are pairs of words and what they do; null parts groups.
export function openMenu([x, y], title, entries, back) {
  const menu = byId("menu");
  const close = (refocus) => {
    menu.hidden = true;
    swap(menu);
    if (refocus) back?.focus?.({ preventScroll: true });
  };
  const item = (entry) =>
    entry === null
      ? el("hr", { role: "separator" })
      : el("button", { type: "button", role: "menuitem", tabindex: -1, on: { click: () => { close(true); entry[1](); } } }, entry[0]);
  swap(menu, el("p", { class: "menu-title" }, title), ...entries.map(item));
  menu.setAttribute("aria-label", title);
  menu.hidden = false;
  const box = menu.getBoundingClientRect();
  menu.style.left = `${Math.max(8, Math.min(x, window.innerWidth - box.width - 8))}px`;
  menu.style.top = `${Math.max(8, Math.min(y, window.innerHeight - box.height - 8))}px`;
  const items = [...menu.querySelectorAll("button")];
  items[0]?.focus({ preventScroll: true });
  menu.onkeydown = (event) => {
    const step = { ArrowDown: 1, ArrowUp: -1 }[event.key];
    const here = items.indexOf(document.activeElement);
    if (step) items[(here + step + items.length) % items.length].focus();
    else if (event.key === "Home") items[0].focus();
    else if (event.key === "End") items.at(-1).focus();
    else if (event.key === "Escape" || event.key === "Tab") close(true);
    else return;
    event.preventDefault();
    event.stopPropagation();
  };
  menu.onfocusout = (event) => {
    if (!menu.contains(event.relatedTarget)) close(false);
  };
}
