// Notes: what does not fit, the worst first, each beside what it is about and with its mend.
import { button, el, region } from "./dom.js";
import { choose, edit, store } from "./store.js";
import { nice } from "./measure.js";
import { counted, sentence, severityWords } from "./words.js";
import { go } from "./router.js";

const order = { error: 0, warning: 1, remark: 2 };
export const byHarm = (list) => [...list].sort((a, b) => order[a.severity] - order[b.severity]);

export function noteList(notes, { short } = {}) {
  return el("ul", { class: "notes" }, byHarm(notes).map((n) => noteItem(n, short)));
}

function noteItem(note, short) {
  const index = store.project.findings.indexOf(note);
  const fix = async () => {
    const done = await edit([{ op: "fix", finding: index }], { words: `Mended: ${note.fix}. Undo takes it back.` });
    if (done) document.dispatchEvent(new CustomEvent("leafwright-mended"));
  };
  const show = () => { if (note.card) go("card", note.card, viewOf(note.key)); choose(note.key); };
  return el("li", { class: `note ${note.severity}` },
    el("p", {}, el("strong", {}, `${severityWords(note.severity)}: `), nice(sentence(note.found))),
    note.expected && el("p", { class: "quiet" }, nice(`Expected: ${sentence(note.expected)}`)),
    note.fix && el("p", {}, nice(`Fix: ${sentence(note.fix)}`)),
    el("div", { class: "acts" },
      note.mend && button("Fix it", fix, { class: "small strong", "data-focus": `fix:${note.rule}:${note.key}`, "aria-label": `Fix it: ${note.fix}` }),
      !short && note.key && store.elements.has(note.key) && button("Show me", show, { class: "small", "data-focus": `show:${note.rule}:${note.key}` })));
}

const viewOf = (key) => store.things.get(key)?.thing.view ?? "front";

export function drawNotes(root) {
  const all = byHarm(store.project.findings);
  region(root, ["notes", all], () => [
    el("h1", {}, "Notes"),
    all.length === 0
      ? el("p", { class: "lead" }, "Everything fits. Nothing stands in the way of making the papers.")
      : el("p", { class: "lead" }, summary(all)),
    all.length > 0 && noteList(all),
  ]);
}

export function summary(all) {
  const of = (s) => all.filter((f) => f.severity === s).length;
  return sentence([of("error") && counted(of("error"), "thing must be mended", "things must be mended"),
    of("warning") && counted(of("warning"), "is worth a look", "are worth a look"),
    of("remark") && counted(of("remark"), "is good to know", "are good to know")].filter(Boolean).join(", "));
}
