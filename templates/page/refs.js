// What may be named in a field: the papers, stamps, faces and pieces there are, each by its name.
import { cardOf, store, value } from "./store.js";
import { elementName, spelt, tagWords } from "./words.js";

const supplies = () => store.project.elements.children.find((c) => c.tag === "supplies")?.children ?? [];
const named = (e) => ({ value: value(e, "id"), words: elementName(e, nameOf) });
const ofTags = (...tags) => supplies().filter((s) => tags.includes(s.tag) && value(s, "id")).map(named);
const images = () => supplies().filter((s) => s.tag === "stamps")
  .flatMap((set) => set.children.filter((i) => i.tag === "image").map((i) => ({ ...named(i), group: elementName(set) })));
const cards = () => store.project.elements.children.filter((c) => c.tag === "card");

const allSupplies = () => supplies().filter((s) => value(s, "id")).map((s) => ({ ...named(s), group: tagWords(s.tag) }));

const faceWords = {
  front: "the front", back: "the back", inside: "the inside", "inside-top": "inside, upper half", "inside-left": "inside, left half",
  "inside-right": "inside, right half", left: "the left leaf", right: "the right leaf", flap: "the flap", middle: "the middle",
  opened: "the opened card", "envelope-front": "the front of the envelope", "envelope-inside": "inside the envelope",
};
const moreFaces = { "top-fold": ["inside-top"], "side-fold": ["inside-left"], tent: ["inside-top"], gate: ["left", "right", "inside-left", "inside-right"],
  z: ["flap", "middle"], accordion: ["leaf-1", "leaf-2", "leaf-3", "leaf-4"] };

export function faces(card) {
  const own = moreFaces[value(card, "form")] ?? [];
  return ["front", "back", "inside", ...own, "opened", "envelope-front", "envelope-inside"]
    .map((face) => ({ value: face, words: faceWords[face] ?? face.replace("-", " ") }));
}

const pieceTags = ["panel", "band", "liner"];
const piecesOf = (card, but) => (card?.children ?? []).filter((c) => pieceTags.includes(c.tag) && value(c, "id") && c.key !== but).map(named);
const thingsOf = (card) => (card?.children ?? []).filter((c) => value(c, "id")).map(named);

// The choices for a field, or null where anything may be written.
export function choicesFor(of, attribute) {
  const card = cardOf(of.key), name = attribute.name;
  if (attribute.choices?.length) return attribute.choices.map((c) => ({ value: c, words: spelt(c.replaceAll("-", " ")) }));
  if (name === "id") return null;
  switch (name) {
    case "on": return card ? [...faces(card), ...piecesOf(card, of.key)] : null;
    case "stock": return ofTags("stock");
    case "die": return ofTags("die");
    case "image": return images();
    case "ink": return attribute.type === "count" ? null : ofTags("ink");
    case "envelope": return ofTags("envelope");
    case "of": return ofTags("ribbon", "twine");
    case "adhesive": return ofTags("adhesive");
    case "raised": return [{ value: "yes", words: "the first foam" }, ...ofTags("adhesive")];
    case "with": return of.tag === "embellish" ? ofTags("embellishment")
      : pieceTags.includes(of.tag) ? [{ value: "nothing", words: "nothing" }, ...ofTags("adhesive")] : null;
    case "like": return cards().flatMap((c) => piecesOf(c, of.key).map((p) => (c.key === card?.key ? p
      : { value: `${value(c, "id")}/${p.value}`, words: p.words, group: elementName(c) })));
    case "for": return of.tag === "step" ? thingsOf(card) : null;
    case "under": return piecesOf(card, of.key);
    case "uses": case "items": case "any": return allSupplies();
    case "item": return [{ value: "tutorial", words: "the tutorial" }, { value: "parts", words: "the pieces" }, ...allSupplies()];
    case "cards": case "card": return cards().map(named);
    case "tier": return of.tag === "order" ? null
      : store.project.elements.children.filter((c) => c.tag === "tier").map(named);
    default: return null;
  }
}

// The name of what an id means, anywhere in the project.
export function nameOf(id) {
  const last = String(id).split("/").at(-1);
  for (const { element } of store.elements.values())
    if (value(element, "id") === last && element.tag !== "project") return value(element, "title") ?? value(element, "name");
  return undefined;
}

export const colourOf = (id) => {
  for (const s of supplies()) if (value(s, "id") === id) return value(s, "colour");
  return undefined;
};
export const supplyMark = () => supplies().map((s) => [value(s, "id"), value(s, "name")]).join("|") + cards().map((c) => value(c, "id") + value(c, "title")).join("|");
