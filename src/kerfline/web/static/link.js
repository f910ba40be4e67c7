// Whether the program behind the page still answers: said as long as it does not, and tried again and again.

import { drop, notice } from "./notices.js";
import { Unreachable, ask } from "./server.js";

const AGAIN = 1500;
const KEY = "lost";

export class Link {
  constructor(back) {
    this.back = back;
    this.lost = false;
  }

  // Takes note of a trouble; tells whether it is this one.
  heard(trouble) {
    if (!(trouble instanceof Unreachable)) return false;
    if (!this.lost) {
      this.lost = true;
      notice(trouble.message, { stay: true, key: KEY });
      this.retry();
    }
    return true;
  }

  retry() {
    setTimeout(async () => {
      try {
        await ask("ping");
      } catch (trouble) {
        if (trouble instanceof Unreachable) return this.retry();
      }
      this.lost = false;
      drop(KEY);
      return this.back();
    }, AGAIN);
  }
}
