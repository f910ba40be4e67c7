// Keys that work wherever the focus is: never while text is typed, nor behind a box or a menu.

const TYPED = "input:not([type=checkbox]):not([type=radio]), textarea, select, [contenteditable]";
// Where arrow keys have a meaning of their own.
const ARROWED = "[role=tab], [role=menuitem], input, select";

export function typing(event) {
  return Boolean(event.target.closest?.(TYPED));
}

function behind(event) {
  return Boolean(document.querySelector("dialog[open]")) || Boolean(event.target.closest?.("[role=menu], dialog"));
}

export function bindKeys({ onKey, onCommand, ready }) {
  document.addEventListener("keydown", (event) => {
    if (!ready() || event.defaultPrevented || behind(event)) return;
    const command = event.ctrlKey || event.metaKey;
    if (command) return onCommand(event, typing(event));
    if (event.altKey || typing(event)) return undefined;
    if (event.key.startsWith("Arrow") && event.target.closest?.(ARROWED)) return undefined;
    // A button that has the focus answers to Enter and space itself.
    if (["Enter", " "].includes(event.key) && event.target.closest?.("button, summary, a")) return undefined;
    if (onKey(event)) event.preventDefault();
    return undefined;
  });
}
