// What takes the program a while or writes files: save, export, the crew's page, alternatives, going back.

import { ask as confirmBox, askName, showAlternatives, showExport } from "./boxes.js";
import { el } from "./dom.js";
import { busy as whileBusy, notice } from "./notices.js";
import { ask, askForFile } from "./server.js";

export function tasksOf({ desk, attempt, begin, choose }) {
  // A task that can be stopped: the program is told its name, says by it what it is at, and frees what it held.
  // `node` shows the wait, `caught` deals with what goes wrong, `held` is given what stops it.
  async function busy(words, job, { node, caught = attempt, held } = {}) {
    const stopping = new AbortController();
    const work = newName();
    const stop = () => {
      ask("stop", { work }).catch(() => {});
      stopping.abort();
    };
    const at = async () => (await ask("progress", { work }, stopping.signal)).words;
    held?.(stop);
    return whileBusy(words, () => caught(() => job(stopping.signal, work)), { stop, at, node });
  }

  async function oneFile() {
    const file = await busy("Making the page", (signal, work) => askForFile("one-file", { state: desk.now.state, work }, signal));
    if (!file) return;
    const link = el("a", { href: URL.createObjectURL(file.blob), download: file.name });
    document.body.append(link);
    link.click();
    link.remove();
    setTimeout(() => URL.revokeObjectURL(link.href), 10000);
  }

  return {
    busy,
    complete: async () => {
      if (await busy("Laying out the rest", (signal, work) => desk.run("complete", { work }, "lay out the rest", signal))) choose(null);
    },
    save: () => attempt(async () => {
      const answer = await desk.save();
      notice(`Saved in ${answer.file}.`);
    }),
    "save-as": async () => {
      const name = await askName(desk.now.picture.job, desk.folder, desk.file);
      if (name === null) return;
      await attempt(async () => {
        const answer = await desk.saveAs(name);
        notice(`Saved in ${answer.file}, in ${answer.folder}.`);
      });
    },
    export: async () => {
      const answer = await busy("Drawing the sheets", (signal, work) => ask("export", { state: desk.now.state, work }, signal));
      if (answer) showExport(answer);
    },
    "one-file": oneFile,
    alternatives: async () => {
      const answer = await busy("Looking for other good layouts", (signal, work) => ask("alternatives", { state: desk.now.state, work }, signal));
      if (answer) showAlternatives(answer, desk.now, (one) => desk.step({ state: one.state, picture: one.picture, at: one.at }, `take the layout "${one.name}"`));
    },
    discard: async () => {
      const sure = await confirmBox("Back to the saved file?", "What was changed since it was saved goes. This cannot be undone.", "Go back");
      if (!sure) return;
      const answer = await busy("Opening", () => desk.write("discard", {}));
      if (answer) begin(answer);
    },
  };
}

let named = 0;
function newName() {
  named += 1;
  return `${Date.now()}-${Math.random().toString(36).slice(2)}-${named}`;
}
