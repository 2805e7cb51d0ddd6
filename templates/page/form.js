// The form of any element, made from what the program says may stand in it.
import { button, el, newId } from "./dom.js";
import { edit, preview, rule, store, value } from "./store.js";
import { makeField } from "./field.js";
import { showFollows } from "./follows.js";
import { spelt } from "./words.js";

// What is asked first; everything else lies under "More".
const first = {
  panel: ["name", "stock", "on", "size", "inset", "at", "die", "raised", "with"],
  band: ["name", "stock", "height", "at"], liner: ["name", "stock", "on", "size", "at"], base: ["stock"],
  stamp: ["image", "ink", "method", "times", "at"], ribbon: ["of", "as", "at"], embellish: ["with", "on", "places", "at", "times"],
  card: ["title", "form", "size", "minutes", "envelope", "level"], step: ["title", "for"], window: ["die", "size", "at", "shape"],
  stock: ["name", "sheet", "price", "pack", "weight", "colour", "pattern", "grain"], tier: ["name", "price", "shipping", "parts"],
  project: ["title", "subtitle", "language", "units", "paper", "date", "edition"],
  run: ["of-each", "reply-by", "ship-by"], die: ["name", "size", "shape", "price"], ink: ["name", "colour", "mark", "price"],
};

export function setEdits(of, name, words) {
  return [{ op: "set", key: of.key, attribute: name, value: words, ...(words === "" && { remove: true }) }];
}

function actsFor(of, name) {
  let asked = 0;
  return {
    commit: (words) => { ++asked; showFollows(null); return edit(setEdits(of, name, words), { group: `${of.key}:${name}` }); },
    wish: async (words) => {
      const mine = ++asked;
      if (words === null || words === (value(of, name) ?? "")) { showFollows(null); return; }
      try {
        const answer = await preview(setEdits(of, name, words));
        if (mine === asked) showFollows(answer.follows ?? [], newNotes(answer.project));
      } catch (refusal) {
        if (mine === asked) showFollows([], [{ found: refusal.answer?.error ?? "This cannot be read yet.", severity: "warning" }]);
      }
    },
  };
}

// Notes that a change would bring.
function newNotes(project) {
  const known = new Set(store.project.findings.map((f) => f.found));
  return (project?.findings ?? []).filter((f) => f.severity !== "remark" && !known.has(f.found));
}

export function makeForm(of) {
  const rules = rule(of), wanted = first[of.tag];
  const main = [], more = [];
  for (const attribute of rules.attributes) {
    if (attribute.name === "version" || attribute.name === "xmlns") continue;
    const shown = value(of, attribute.name) !== undefined && attribute.name !== "id" && attribute.type !== "path-data";
    const asked = wanted ? wanted.includes(attribute.name) : attribute.required && attribute.name !== "id" || rules.attributes.length <= 7;
    (shown || asked ? main : more).push(attribute);
  }
  if (wanted) main.sort((a, b) => place(wanted, a.name) - place(wanted, b.name));
  const make = (attribute) => makeField(of, attribute, actsFor(of, attribute.name));
  const openMore = store.openMore?.has(of.tag);
  return [
    rules.text && textField(of),
    main.map(make),
    more.length > 0 && el("details", { class: "more", open: openMore, on: { toggle: (e) => remember(of.tag, e.target.open) } },
      el("summary", { "data-focus": `${of.key}:more` }, `More (${more.length})`), more.map(make)),
  ];
}

const place = (list, name) => (list.includes(name) ? list.indexOf(name) : list.length);
function remember(tag, open) {
  store.openMore ??= new Set();
  if (open) store.openMore.add(tag); else store.openMore.delete(tag);
}

// Words of a step, a tip, an introduction. They are kept as they are typed, half a second after each pause.
function textField(of) {
  const id = newId("words");
  let timer, last = of.text ?? "";
  const commit = (field) => {
    clearTimeout(timer);
    field.dataset.typed = "";
    if (field.value === last) return;
    last = field.value;
    edit([{ op: "text", key: of.key, value: field.value }], { group: `${of.key}:words` });
  };
  const field = el("textarea", { id, rows: "5", value: last, "data-focus": `${of.key}:words`, "aria-describedby": `${id}-hint`, on: {
    input: () => { field.dataset.typed = "yes"; clearTimeout(timer); timer = setTimeout(() => commit(field), 500); },
    change: () => commit(field),
  } });
  return el("div", { class: "field words" }, el("label", { for: id }, "Words"), el("div", { class: "control" }, field),
    el("p", { class: "hint", id: `${id}-hint` }, spelt("A name in braces stands for its measure: {mat} is the piece with its letter, {mat.size} its size.")));
}

export const smallButton = (words, act, props = {}) => button(words, act, { class: "small", ...props });
