// The slip beside the work: all about what is chosen, and what it comes to.
import { button, el, newId, region } from "./dom.js";
import { cardOf, choose, edit, element, findingsOf, parentOf, store, value } from "./store.js";
import { makeForm, smallButton } from "./form.js";
import { addBox } from "./add.js";
import { noteList } from "./notes.js";
import { canGo, go as goBy, siblings } from "./order.js";
import { drawFollows } from "./follows.js";
import { follow, movable, nudge, resizable, standAlone } from "./move.js";
import { tapToPlace } from "./surface.js";
import { nice } from "./measure.js";
import { nameOf, supplyMark } from "./refs.js";
import { drawSheets } from "./sheets.js";
import { elementName, kindWords, placeWords, sentence, tagWords } from "./words.js";

export function drawSlip(root, route, at) {
  const of = chosenElement(route);
  const thing = of && store.things.get(of.key)?.thing;
  const made = [route.page, route.view, at?.view, at?.scale, of, thing, of && parentOf(of.key)?.key, of && siblings(of.key).map((s) => s.key), supplyMark(),
    of ? notesFor(of) : null, of ? null : store.project.facts];
  region(root, made, () => [
    of ? about(of, thing, at) : idle(route),
    el("section", { id: "follows", "aria-label": "What follows", "aria-live": "polite" }),
    of ? el("section", { class: "lower" }, lower(of, thing, at)) : null,
    thing && el("section", { id: "cut-from", "aria-label": "Where it is cut" }),
  ]);
  drawFollows(store.lastFollows);
  if (thing) drawSheets(document.getElementById("cut-from"), thing.key);
}

// The chosen element; on a card, the card itself when nothing is.
export function chosenElement(route) {
  const chosen = store.chosen && element(store.chosen);
  if (route.page === "card") {
    const card = store.project.cards.find((c) => c.id === route.card);
    if (chosen && cardOf(chosen.key)?.key === card?.key) return chosen;
    return card ? element(card.key) : null;
  }
  return chosen && ["supplies", "class"].includes(route.page) ? chosen : null;
}

const notesFor = (of) => (of.tag === "card"
  ? store.project.findings.filter((f) => f.card === value(of, "id"))
  : [of, ...of.children].flatMap((e) => findingsOf(e.key)));

function about(of, thing, at) {
  const parent = parentOf(of.key), name = thing?.name ?? elementName(of, nameOf);
  const notes = notesFor(of);
  return el("section", { class: "about" },
    el("p", { class: "narrow" }, el("a", { href: "#work", on: { click: backToWork } }, "↑ Back to the work")),
    parent && parent.tag !== "project" && el("p", { class: "path" }, smallButton(`↑ ${elementName(parent, nameOf)}`, () => choose(parent.key),
      { "data-focus": "slip:up", "aria-label": `Up to ${elementName(parent, nameOf)}` })),
    el("h2", {}, thing?.letter && el("b", { class: "letter" }, thing.letter), " ", name),
    el("p", { class: "quiet" }, `${kindWords(of.tag)}${thing?.words ? ` · ${nice(placeWords(thing))}` : ""}`),
    notes.length > 0 && noteList(notes, { short: true }),
    thing && following(of, thing, at),
    thing && (movable(thing) || resizable(thing)) && thing.view === at?.view && pad(thing, at),
    el("div", { class: "form" }, makeForm(of)));
}

// On a phone, where the slip lies below the work: back to what was chosen there.
function backToWork(event) {
  event.preventDefault();
  const from = document.querySelector("#work [aria-pressed=true]") ?? document.querySelector("#stage") ?? document.getElementById("work");
  from.focus({ preventScroll: true });
  from.scrollIntoView({ block: "center" });
}

function following(of, thing, at) {
  if (!["panel", "band", "liner"].includes(of.tag)) return null;
  const from = value(of, "like"), scale = at?.scale ?? 1, on = from ? nameOf(from) ?? from : nameOf(value(of, "on") ?? "front") ?? (value(of, "on") ?? "front").replaceAll("-", " ");
  if (thing.placeFollows || thing.sizeFollows) return el("p", { class: "follows-what" }, sentence(`It follows ${on}: change that, and it changes with it`), " ",
    thing.view === at?.view && smallButton("Let it stand alone", () => standAlone(thing, scale), { "data-focus": "slip:alone" }));
  if (value(of, "die")) return null;
  return el("p", { class: "follows-what" }, "It stands alone: its size is its own. ",
    thing.view === at?.view && movable(thing) && smallButton(`Let it follow ${on}`, () => follow(thing, scale), { "data-focus": "slip:follow" }));
}

// Moving and sizing by single taps, beside dragging and the keys.
function pad(thing, at) {
  const mark = store.project.mark, key = thing.key;
  const now = () => store.things.get(key)?.thing ?? thing;
  const go = (words, sign, dx, dy, size) => button(sign, () => nudge(at, now(), dx * mark, dy * mark, size),
    { "aria-label": words, "data-focus": `pad:${words}` });
  const id = newId("pad");
  return el("div", { class: "pads" },
    movable(thing) && el("div", { class: "pad", role: "group", "aria-labelledby": id }, el("span", { id }, "Move"),
      go("Left by one mark", "←", -1, 0), go("Right by one mark", "→", 1, 0), go("Up by one mark", "↑", 0, -1), go("Down by one mark", "↓", 0, 1),
      button("Tap to place", () => tapToPlace(at), { class: "wide", "data-focus": "pad:tap" })),
    resizable(thing) && el("div", { class: "pad", role: "group", "aria-label": "Size" }, el("span", {}, "Size"),
      go("Narrower by one mark", "↔ −", -1, 0, true), go("Wider by one mark", "↔ +", 1, 0, true),
      go("Lower by one mark", "↕ −", 0, -1, true), go("Taller by one mark", "↕ +", 0, 1, true)));
}

function lower(of, thing, at) {
  const own = of.children.filter((c) => of.tag !== "card" || ["intro", "step", "tip"].includes(c.tag));
  const gone = () => { const next = parentOf(of.key); edit([{ op: "remove", key: of.key }], { words: "Taken away. Undo brings it back." }).then((a) => a && choose(next?.tag === "project" ? null : next?.key ?? null)); };
  const copy = async () => { const a = await edit([{ op: "duplicate", key: of.key }], { words: "A copy is made." }); if (a?.added.length) choose(a.added[0]); };
  const lone = ["base", "project", "supplies", "maker", "run", "selling"].includes(of.tag);
  const sorted = siblings(of.key).length > 1;
  return [
    own.length > 0 && [el("h3", {}, of.tag === "card" ? "Words and steps" : "Part of it"), el("ul", { class: "inner" }, own.map((c) =>
      el("li", {}, button([el("span", { class: "quiet" }, tagWords(c.tag)), " ", elementName(c, nameOf)], () => choose(c.key), { class: "row", "data-focus": `inner:${c.key}` }))))],
    addBox(of),
    !lone && el("div", { class: "acts", role: "group", "aria-label": "What to do with it" },
      sorted && smallButton("Earlier", () => goBy(of.key, -1), { disabled: !canGo(of.key, -1), "data-focus": "act:earlier" }),
      sorted && smallButton("Later", () => goBy(of.key, 1), { disabled: !canGo(of.key, 1), "data-focus": "act:later" }),
      smallButton("Make a copy", copy, { "data-focus": "act:copy" }),
      smallButton("Take away", gone, { class: "small away", "data-focus": "act:remove" })),
  ];
}

function idle(route) {
  if (route.page === "cards") return [el("section", {}, el("h2", {}, "What it comes to"), factList())];
  if (route.page === "notes" || route.page === "papers" || route.page === "orders") return [el("section", {}, el("h2", {}, "What it comes to"), factList())];
  return el("section", {}, el("h2", {}, "About what you choose"), el("p", {}, "Choose something in the list to change it."), factList());
}

export const factList = () => el("dl", { class: "facts" }, store.project.facts.map((f) => el("div", {}, el("dt", {}, f.label), el("dd", {}, f.value))));
