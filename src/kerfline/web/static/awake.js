// Keeps the screen on while the page is seen, where the browser can.

export class Awake {
  constructor(tell) {
    this.tell = tell;
    document.addEventListener("visibilitychange", () => this.hold());
    document.addEventListener("pointerdown", () => this.hold(), { once: true });
    this.hold();
  }

  async hold() {
    if (document.visibilityState !== "visible" || (this.lock && !this.lock.released)) return;
    if (!navigator.wakeLock) {
      this.tell("This browser lets the screen go dark here; set the tablet to stay on.");
      return;
    }
    try {
      this.lock = await navigator.wakeLock.request("screen");
      this.tell("The screen stays on.");
    } catch {
      this.tell("The screen may go dark; tap it to keep it on.");
    }
  }
}
