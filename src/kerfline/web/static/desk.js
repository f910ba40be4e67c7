// The working state in this window: what is drawn now, what was before (undo), what is not yet kept.

import { stepName } from "./naming.js";
import { patched } from "./patch.js";
import { ask, Conflict, Unreachable } from "./server.js";

const KEEP_AFTER = 250;
const PICTURES_KEPT = 60;

function shownOf({ state, picture, at }) {
  return { state, picture, at };
}

// What an action makes of a state. The program is told which state by its name and tells what differs; where it
// does not know the name any more it is sent the whole.
async function changed(from, action) {
  if (from.at) {
    const answer = await ask("change", { at: from.at, action });
    if (!answer.unknown) return { ...patched({ state: from.state, picture: from.picture }, answer.difference), at: answer.at };
  }
  return ask("change", { state: from.state, action });
}

export class Desk {
  constructor() {
    this.past = [];
    this.future = [];
    this.now = null;
    this.listeners = { change: [], trouble: [], saved: [], said: [] };
    this.running = null;
    this.waiting = null;
    this.acting = null;
    this.turn = 0;
    this.revision = 0;
    this.savedState = "";
    this.file = "";
  }

  on(event, listener) {
    this.listeners[event].push(listener);
  }

  tell(event, ...said) {
    for (const listener of this.listeners[event]) listener(...said);
  }

  begin(answer) {
    this.past = [];
    this.future = [];
    this.revision = answer.revision;
    this.file = answer.file;
    this.folder = answer.folder;
    this.ruleSets = answer.ruleSets;
    this.restored = answer.restored;
    this.savedState = answer.saved ? JSON.stringify(answer.saved) : "";
    this.now = shownOf(answer);
    this.tell("change", this.now, "open");
    this.tell("saved", this.unsaved ? (answer.restored ? "kept" : "new") : "saved");
  }

  get unsaved() {
    return JSON.stringify(this.now.state) !== this.savedState;
  }

  // Shows what an action would give, without keeping it. Of requests that pile up only the last is sent.
  preview(action) {
    this.waiting = { action, from: this.now, turn: this.turn };
    if (!this.running) this.running = this.pump();
    return this.running;
  }

  async pump() {
    while (this.waiting) {
      const { action, from, turn } = this.waiting;
      this.waiting = null;
      try {
        const answer = await changed(from, action);
        if (from === this.now && turn === this.turn) this.tell("change", answer, "preview");
      } catch {
        // What is refused is said when it is to be kept.
      }
    }
    this.running = null;
  }

  // Does an action and keeps it. Actions come one after the other, each on what the one before left; one that
  // depends on what is there by then is given as a function of the picture.
  act(action) {
    const before = this.acting;
    const mine = (async () => {
      await before;
      return this.perform(action);
    })();
    this.acting = mine;
    return mine;
  }

  async perform(action) {
    this.letGo();
    const from = this.now;
    const said = typeof action === "function" ? action(from.picture) : action;
    if (!said) return null;
    try {
      const answer = await changed(from, said);
      if (from !== this.now) return null;
      this.step(shownOf(answer), stepName(said));
      return answer;
    } catch (trouble) {
      this.tell("change", this.now, "back");
      this.tell("trouble", trouble);
      return null;
    }
  }

  async run(name, said, called, signal) {
    const from = this.now;
    const answer = await ask(name, { state: from.state, ...said }, signal);
    if (from !== this.now) return null;
    this.step(shownOf(answer), called);
    return answer;
  }

  // Goes on to what a step gave; `name` says what undoing it would undo.
  step(next, name) {
    this.past.push({ shown: this.now, name });
    if (this.past.length > PICTURES_KEPT) delete this.past[this.past.length - 1 - PICTURES_KEPT].shown.picture;
    this.future = [];
    this.settle(next);
    this.say(name);
  }

  // For who does not see it: what was done, and what is found now.
  say(name) {
    const { errors, warnings } = this.now.picture.totals;
    this.tell("said", `${name[0].toUpperCase()}${name.slice(1)}: done. ${errors} errors, ${warnings} warnings.`);
  }

  // What was asked for to be seen only is not shown any more, however late it comes.
  letGo() {
    this.waiting = null;
    this.turn += 1;
  }

  drop() {
    this.letGo();
    this.tell("change", this.now, "back");
  }

  async undo() {
    if (!this.past.length) return;
    const { shown, name } = this.past.pop();
    this.future.push({ shown: this.now, name });
    await this.settle(shown);
    this.say(`undo ${name}`);
  }

  async redo() {
    if (!this.future.length) return;
    const { shown, name } = this.future.pop();
    this.past.push({ shown: this.now, name });
    await this.settle(shown);
    this.say(`redo ${name}`);
  }

  async settle(next) {
    this.now = next;
    if (!next.picture) Object.assign(next, shownOf(await ask("change", { state: next.state })));
    this.tell("change", this.now, "step");
    this.keepSoon();
  }

  keepSoon() {
    this.tell("saved", this.unsaved ? "unsaved" : "saved");
    clearTimeout(this.timer);
    this.waitingToKeep = true;
    this.timer = setTimeout(() => this.keep(), KEEP_AFTER);
  }

  // What writes comes one after the other, so that this window never overtakes itself.
  async write(name, said) {
    const before = this.writing;
    const now = (async () => {
      await before?.catch(() => {});
      const answer = await ask(name, { ...said, revision: this.revision });
      this.revision = answer.revision;
      return answer;
    })();
    this.writing = now;
    return now;
  }

  async keep(over = false) {
    this.waitingToKeep = false;
    try {
      await this.write("draft", { state: this.now.state, over });
      this.tell("saved", this.unsaved ? "kept" : "saved");
    } catch (trouble) {
      this.tell("trouble", trouble);
      if (trouble instanceof Unreachable || trouble instanceof Conflict) this.tell("saved", "alone");
    }
  }

  // The program is back after it was lost: it learns what this window last kept, and keeps what it has now.
  async resume() {
    if (!this.now) return;
    const answer = await ask("resume", { revision: this.revision });
    this.revision = answer.revision;
    if (this.unsaved) await this.keep();
    else this.tell("saved", "saved");
  }

  // When the window closes there is no time left to wait.
  keepNow() {
    if (!this.now || this.waitingToKeep !== true) return;
    const body = JSON.stringify({ state: this.now.state, revision: this.revision });
    fetch("draft", { method: "POST", headers: { "content-type": "application/json" }, body, keepalive: true });
  }

  async save(force = false) {
    clearTimeout(this.timer);
    this.waitingToKeep = false;
    const state = this.now.state;
    const answer = await this.write("save", { state, over: force });
    this.file = answer.file;
    this.savedState = JSON.stringify(state);
    this.tell("saved", this.unsaved ? "kept" : "saved");
    return answer;
  }

  // Goes on under another name; what can be undone bears it too.
  async saveAs(name) {
    clearTimeout(this.timer);
    this.waitingToKeep = false;
    const answer = await this.write("save-as", { state: this.now.state, name });
    for (const { shown } of [...this.past, ...this.future]) {
      shown.state = { ...shown.state, name: answer.state.name };
      shown.picture &&= { ...shown.picture, job: answer.state.name };
      shown.at = undefined;
    }
    this.now = shownOf(answer);
    this.file = answer.file;
    this.savedState = JSON.stringify(answer.state);
    this.tell("change", this.now, "open");
    this.tell("saved", "saved");
    return answer;
  }
}
