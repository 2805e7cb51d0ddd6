// One field of a form, by what is written in it: a measure, a choice, a colour, a day, names, words.
import { button, el, newId } from "./dom.js";
import { choicesFor } from "./refs.js";
import { attributeWords, helpWords, spelt } from "./words.js";
import { nice, otherUnit, stepped } from "./measure.js";
import { store } from "./store.js";

const measured = new Set(["measure", "sides", "position", "points", "step"]);
const numbers = new Set(["count", "number", "seconds", "angle"]);
const days = new Set(["date", "until", "reply-by", "ship-by"]);
const weekdays = ["Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"];

function kindOf(of, attribute) {
  if (attribute.type === "names-of-things" || attribute.name === "uses") return "names";
  if (choicesFor(of, attribute)) return "choice";
  if (measured.has(attribute.type)) return "measure";
  if (numbers.has(attribute.type)) return "number";
  if (attribute.type === "colour") return "colour";
  return days.has(attribute.name) ? "day" : "words";
}

// `act` has commit(words) and wish(words): the first writes, the second only asks what would follow.
export function makeField(of, attribute, act) {
  const kind = kindOf(of, attribute), id = newId("field");
  const given = of.attributes.find((a) => a[0] === attribute.name);
  const at = { of, attribute, kind, id, act, words: given?.[1] ?? "", given };
  const label = el("label", { for: id }, attributeWords(attribute.name, of.tag),
    attribute.required && el("span", { class: "must", title: "must be there" }, " *", el("span", { class: "unseen" }, " must be there")));
  const control = { measure, number, choice, colour, day, names, words }[kind](at);
  const hint = hintWords(at);
  return el("div", { class: `field ${kind}` }, label, el("div", { class: "control" }, control),
    kind === "measure" && el("p", { class: "reads", id: `${id}-reads` }, reading(at)),
    hint && el("p", { class: "hint", id: `${id}-hint` }, hint));
}

// A list of choices explains itself, and says itself what holds without one.
function hintWords({ attribute, words, kind }) {
  if (kind === "choice" || (kind === "names" && !attribute.default)) return "";
  const help = kind === "names" ? "" : helpWords(attribute);
  const without = !words && attribute.default ? `Left out: ${spelt(attribute.default)}.` : "";
  return [help && `${help.charAt(0).toUpperCase()}${help.slice(1)}.`, without].filter(Boolean).join(" ");
}

// What the program read, and the same in the other unit.
function reading({ given, words }, now = words) {
  const unit = store.project.unit;
  if (now === words && given?.[2] && given[2] !== now) return nice(`is ${given[2]}${given[3] ? ` · ${given[3]}` : ""}`);
  if (now === words && given?.[3]) return nice(`is ${given[3]}`);
  const other = otherUnit(now, unit);
  return other ? `is ${other}` : "";
}

const common = (at) => ({
  id: at.id, "data-focus": `${at.of.key}:${at.attribute.name}`, autocomplete: "off",
  "aria-describedby": `${at.kind === "measure" ? `${at.id}-reads ` : ""}${at.id}-hint`,
});

function textField(at, props = {}, live) {
  let last = at.words, timer;
  const commit = (field) => {
    clearTimeout(timer);
    field.dataset.typed = "";
    if (field.value.trim() === last.trim()) return;
    last = field.value;
    at.act.commit(field.value.trim());
  };
  const field = el("input", { type: "text", spellcheck: "false", ...common(at), ...props, value: at.words, on: {
    input: () => {
      field.dataset.typed = "yes";
      clearTimeout(timer);
      timer = setTimeout(() => (live ? commit(field) : at.act.wish(field.value.trim())), live ? 500 : 220);
      const reads = document.getElementById(`${at.id}-reads`);
      if (reads) reads.textContent = reading(at, field.value);
    },
    change: () => commit(field),
    keydown: (event) => {
      if (event.key === "Enter") commit(field);
      if (event.key === "Escape") { field.value = last; field.dataset.typed = ""; clearTimeout(timer); at.act.wish(null); event.stopPropagation(); }
    },
  } });
  return { field, commit };
}

function measure(at) {
  const { field, commit } = textField(at, { inputmode: "text" });
  const step = (by, caret) => {
    const next = stepped(field.value, caret ?? field.selectionStart ?? 0, by * store.project.mark, store.project.unit);
    if (!next) return;
    field.value = next.words;
    if (document.activeElement === field) field.setSelectionRange(next.caret, next.caret);
    commit(field);
  };
  return withSteps(at, field, step);
}

// The field steps by its arrow keys, and by a button for each way.
function withSteps(at, field, step) {
  field.addEventListener("keydown", (event) => {
    if (event.key !== "ArrowUp" && event.key !== "ArrowDown") return;
    event.preventDefault();
    step((event.key === "ArrowUp" ? 1 : -1) * (event.shiftKey ? 10 : 1));
  });
  return [field, ...stepButtons(at, step)];
}

function stepButtons(at, step) {
  const name = attributeWords(at.attribute.name, at.of.tag);
  const make = (by, sign, word) => button(sign, () => step(by), { class: "step-by", "aria-label": `${name}: ${word}`,
    "data-focus": `${at.of.key}:${at.attribute.name}:${word}` });
  return [make(-1, "−", "less"), make(1, "+", "more")];
}

function number(at) {
  const { field, commit } = textField(at, { inputmode: "decimal" });
  const step = (by) => {
    const now = Number(field.value || (/^\d+$/.test(at.attribute.default) ? at.attribute.default : 0));
    if (Number.isNaN(now)) return;
    field.value = String(at.attribute.type === "angle" ? now + by : Math.max(0, now + by));
    commit(field);
  };
  return withSteps(at, field, step);
}

// Choices in groups, with one for "not said" and one for what stands in the file if it is none of them.
function optionNodes(choices, none, now) {
  const groups = new Map();
  for (const c of choices) groups.set(c.group ?? "", [...(groups.get(c.group ?? "") ?? []), el("option", { value: c.value }, c.words)]);
  const known = choices.some((c) => c.value === now);
  return [none !== null && el("option", { value: "" }, none), now && !known && el("option", { value: now }, now),
    ...[...groups].map(([label, nodes]) => (label ? el("optgroup", { label }, nodes) : nodes))];
}

function choice(at) {
  const none = at.attribute.required && at.words ? null : at.attribute.default ? `(${spelt(at.attribute.default)})` : "(none)";
  return el("select", { ...common(at), value: at.words, on: { change: (event) => at.act.commit(event.target.value) } },
    optionNodes(choicesFor(at.of, at.attribute), none, at.words));
}

function names(at) {
  const list = at.words.split(/\s+/).filter(Boolean), choices = choicesFor(at.of, at.attribute) ?? [];
  if (choices.length === 0) return textField(at).field;
  const word = (id) => choices.find((c) => c.value === id)?.words ?? id;
  const without = (i) => at.act.commit(list.filter((_, j) => j !== i).join(" "));
  return [
    list.length > 0 && el("ul", { class: "chips" }, list.map((id, i) => el("li", {}, word(id), button("×", () => without(i),
      { "aria-label": `Take out ${word(id)}`, "data-focus": `${at.of.key}:${at.attribute.name}:${i}` })))),
    el("select", { ...common(at), value: "", on: { change: (e) => e.target.value && at.act.commit([...list, e.target.value].join(" ")) } },
      optionNodes(choices.filter((c) => !list.includes(c.value)), list.length ? "Add one more …" : "Choose …", "")),
  ];
}

function colour(at) {
  const { field } = textField(at);
  const name = attributeWords(at.attribute.name, at.of.tag);
  return [el("input", { type: "color", value: /^#[0-9a-f]{6}$/i.test(at.words) ? at.words : "#808080", "aria-label": `${name}, to pick`,
    "data-focus": `${at.of.key}:${at.attribute.name}:pick`, on: { change: (e) => at.act.commit(e.target.value) } }), field];
}

// A day as the file has it, "Tue 2027-03-16", with a calendar beside it.
function day(at) {
  const { field } = textField(at);
  const iso = /\d{4}-\d{2}-\d{2}/.exec(at.words)?.[0] ?? "";
  const weekday = /^[A-Z]/.test(at.words) || ["reply-by", "ship-by"].includes(at.attribute.name);
  const pick = (event) => {
    const to = event.target.value;
    if (to) at.act.commit(weekday ? `${weekdays[new Date(`${to}T12:00:00`).getDay()]} ${to}` : to);
  };
  return [field, el("input", { type: "date", value: iso, "aria-label": `${attributeWords(at.attribute.name, at.of.tag)}, in the calendar`,
    "data-focus": `${at.of.key}:${at.attribute.name}:pick`, on: { change: pick } })];
}

function words(at) {
  const { field } = textField(at, { spellcheck: "true" }, at.attribute.type === "words" || at.attribute.type === "any-words");
  return field;
}
