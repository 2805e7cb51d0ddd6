// What the page knows: the project as the program last told it, and what is chosen.
import { edit as sendEdit, get, post } from "./server.js";
import { say, warn } from "./dom.js";
import { useLanguage } from "./words.js";

export const store = {
  project: null,
  tags: {},
  chosen: null, // key of an element
  lastFollows: [], // what came of the last change
  told: 0, // how often the program has told another state of the project
  elements: new Map(), // key to { element, parent }
  things: new Map(), // key to { thing, card }
};

const hearers = new Set();
export const onChange = (act) => { hearers.add(act); return () => hearers.delete(act); };
export const changed = (what) => { for (const act of hearers) act(what); };

function index(element, parent) {
  store.elements.set(element.key, { element, parent });
  for (const child of element.children ?? []) index(child, element);
}

export function take(project) {
  if (!project) return;
  if (project.tags) store.tags = project.tags;
  if (project.rev !== store.project?.rev) document.body.dataset.told = ++store.told;
  store.project = project;
  store.elements = new Map();
  index(project.elements, null);
  store.things = new Map();
  for (const card of project.cards)
    for (const thing of card.things) {
      thing.carrier ??= carrierOf(thing, card);
      Object.assign(thing, bonds(element(thing.key)));
      if (!store.things.has(thing.key)) store.things.set(thing.key, { thing, card });
    }
  if (store.chosen && !store.elements.has(store.chosen)) store.chosen = null;
  useLanguage(project.language);
  changed("project");
}

// What of a piece comes from another: its place, its size. Named measures are calculations.
function bonds(of) {
  if (!of) return {};
  const named = (name) => /[a-z][\w-]*\.[a-z]|\b(half|min|max)\(/i.test(value(of, name) ?? ""), has = (name) => value(of, name) !== undefined;
  const inset = has("inset"), like = has("like");
  return {
    placeFollows: inset || named("at") || named("places") || (like && !has("at") && !has("places")),
    sizeFollows: inset || ["size", "width", "height"].some(named) || (like && !has("size") && !has("width")),
  };
}

// What a thing is placed in, where the program does not say: what it lies on, else the card's side.
function carrierOf(thing, card) {
  const on = card.things.find((t) => t.key === thing.parent && t.view === thing.view && t.kind !== "base");
  const box = on ?? { x: 0, y: 0, width: card.width, height: card.height };
  return { x: box.x, y: box.y, width: box.width, height: box.height };
}

// What was asked for before a change of this page was answered is older than that answer, and left.
export async function load() {
  for (;;) {
    const told = store.told, project = await get("/api/project");
    if (told === store.told) { take(project); return; }
  }
}

export const element = (key) => store.elements.get(key)?.element;
export const parentOf = (key) => store.elements.get(key)?.parent;
export const value = (of, name) => of?.attributes?.find((a) => a[0] === name)?.[1];
const noRule = { attributes: [], children: [], counts: [] };
export const rule = (of) => store.tags[of.rule] ?? childRule(parentOf(of.key), of.tag);
// The same tag means different things in different places: a ribbon on the shelf, a ribbon on a card.
export function childRule(parent, tag) {
  const holder = parent && (store.tags[parent.rule] ?? store.tags[parent.tag]);
  return store.tags[holder?.rules?.[holder.children.indexOf(tag)]] ?? store.tags[tag] ?? noRule;
}
export const single = (parent, tag) => {
  const of = rule(parent);
  return ["?", "!"].includes(of.counts?.[of.children.indexOf(tag)]);
};
export const cardOf = (key) => {
  for (let at = store.elements.get(key); at; at = at.parent && store.elements.get(at.parent.key))
    if (at.element.tag === "card") return at.element;
  return null;
};
export const findingsOf = (key) => store.project.findings.filter((f) => f.key === key);

export function choose(key) {
  if (store.chosen === key) return;
  store.chosen = key;
  store.lastFollows = [];
  changed("chosen");
}

// Sends edits and shows what comes back. Tells what was refused, and leaves all as it was.
export async function edit(edits, { group, words } = {}) {
  try {
    const answer = await sendEdit(() => store.project.rev, edits, { group });
    store.lastFollows = answer.follows ?? [];
    const before = new Set(store.elements.keys());
    take(answer.project);
    if (words) say(words);
    return { ...answer, added: [...store.elements.keys()].filter((k) => !before.has(k)) };
  } catch (refusal) {
    refused(refusal);
    return null;
  }
}

export async function preview(edits) {
  return sendEdit(() => store.project.rev, edits, { group: "preview", preview: true });
}

export function refused(refusal) {
  const answer = refusal.answer ?? {};
  if (answer.project) take(answer.project);
  warn([answer.error ?? refusal.message, answer.fix].filter(Boolean).join(" "));
}

async function turn(path, words) {
  try {
    const answer = await post(path, { rev: store.project.rev });
    store.lastFollows = answer.follows ?? [];
    take(answer.project);
    say(words);
  } catch (refusal) { refused(refusal); }
}

export const undo = () => store.project.undo && turn("/api/undo", `Taken back: ${store.project.undo}`);
export const redo = () => store.project.redo && turn("/api/redo", `Done again: ${store.project.redo}`);
