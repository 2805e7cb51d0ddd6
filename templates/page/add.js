// New things: a piece, a stamp, a ribbon, a card, an option, a supply. Each begins with what it must
// have, so that it can be seen at once and changed from there.
import { button, el, say } from "./dom.js";
import { cardOf, childRule, choose, edit, element, rule, single, store, value } from "./store.js";
import { choicesFor } from "./refs.js";
import { tagWords } from "./words.js";

const freeId = (stem) => {
  const taken = new Set([...store.elements.values()].map(({ element: e }) => value(e, "id")));
  if (!taken.has(stem)) return stem;
  for (let n = 2; ; ++n) if (!taken.has(`${stem}-${n}`)) return `${stem}-${n}`;
};

const metric = () => store.project.unit === "mm";
const carriers = ["panel", "band", "liner"];

// By kind of value: something that can stand there.
function begin(tag, attribute, parent) {
  const probe = { key: parent.key, tag, attributes: [], children: [] };
  const choices = choicesFor(probe, attribute);
  if (attribute.name === "id") return freeId(tag);
  if (attribute.name === "title" || attribute.name === "name") return `New ${tagWords(tag).toLowerCase()}`;
  if (choices?.length) return choices[0].value;
  if (attribute.type === "measure") return metric() ? "10" : "3/8";
  if (attribute.type === "sides") return attribute.name === "size" && tag === "card" ? (metric() ? "A6" : "A2") : metric() ? "50 x 50" : "2 x 2";
  if (attribute.type === "money") return "1.00";
  if (["count", "number"].includes(attribute.type)) return "1";
  if (attribute.type === "path-data") return "M0 0 L10 0 L10 10 Z";
  if (/date/.test(attribute.name)) return new Date().toISOString().slice(0, 10);
  return "new";
}

// What the page knows beyond the table: a panel wants a paper and a place, a ribbon a height.
function extras(tag, parent) {
  const on = carriers.includes(parent.tag) ? value(parent, "id") : null;
  const probe = { key: parent.key, tag, attributes: [], children: [] };
  const firstOf = (name) => choicesFor(probe, { name, type: "name-of-thing" })?.[0]?.value;
  switch (tag) {
    case "panel": return { stock: firstOf("stock"), on: on ?? "front", inset: metric() ? "6" : "1/4" };
    case "liner": return { stock: firstOf("stock"), on: "inside", inset: metric() ? "3" : "1/8" };
    case "band": return { stock: firstOf("stock"), height: metric() ? "25" : "1" };
    case "stamp": return { ink: firstOf("ink") };
    case "ribbon": return { at: metric() ? "40 from top" : "1 1/2 from top" };
    case "embellish": return { on: on ?? "front", at: "centre" };
    case "window": return { size: metric() ? "25 x 25" : "1 x 1" };
    case "stock": return { sheet: metric() ? "A4" : "letter", colour: "#d8c9a8" };
    case "tier": return { price: "10.00" };
    case "own": return { item: firstOf("item") };
    case "slot": return { title: "New part", minutes: "10" };
    case "in-hand": return { count: "1" };
    default: return {};
  }
}

// What a thing cannot be without.
function needed(tag) {
  const supplies = store.project.elements.children.find((c) => c.tag === "supplies");
  const stock = supplies?.children.find((c) => c.tag === "stock");
  if (tag === "card" && stock) return [{ tag: "base", attributes: { stock: value(stock, "id") } }];
  if (tag === "stamps") return [{ tag: "image", attributes: { id: freeId("image"), size: metric() ? "30 x 30" : "1 x 1" } }];
  if (tag === "pack" && stock) return [{ tag: "holds", attributes: { stock: value(stock, "id") } }];
  return null;
}

export async function addElement(tag, parent, { before, given = {}, but = [] } = {}) {
  const rules = childRule(parent, tag);
  const attributes = {};
  for (const attribute of rules.attributes ?? []) if (attribute.required && attribute.name !== "version") attributes[attribute.name] = begin(tag, attribute, parent);
  if (carriers.includes(tag)) attributes.name = `new ${tagWords(tag).toLowerCase()}`;
  for (const [name, words] of Object.entries({ ...extras(tag, parent), ...given })) if (words !== undefined) attributes[name] = words;
  for (const name of but) delete attributes[name];
  const edits = [{ op: "add", parent: parent.key, tag, attributes, ...(before && { before }), ...(rules.text && { text: "Write it here." }),
    ...(needed(tag) && { children: needed(tag) }) }];
  const answer = await edit(edits);
  const made = answer?.added.find((key) => element(key)?.tag === tag);
  if (made) { choose(made); say(`${tagWords(tag)} added.`); }
  return made;
}

// On a card: with a piece chosen, a new one lies on it.
export function addBox(of) {
  const card = cardOf(of.key), list = [];
  const free = (e, tag) => !(single(e, tag) && e.children.some((c) => c.tag === tag));
  for (const tag of rule(of).children) if (free(of, tag)) list.push({ tag, parent: of });
  if (card && card.key !== of.key && carriers.includes(of.tag))
    for (const tag of ["panel", "embellish"]) list.push({ tag, parent: card, on: of });
  if (list.length === 0) return null;
  return el("div", { class: "add", role: "group", "aria-label": `Add to ${tagWords(of.tag).toLowerCase()}` },
    list.map(({ tag, parent, on }) => button(`+ ${tagWords(tag)}${on ? " on it" : ""}`,
      () => addElement(tag, parent, { given: on && value(on, "id") ? { on: value(on, "id") } : {} }),
      { class: "small", "data-focus": `add:${of.key}:${tag}:${on ? 1 : 0}` })));
}
