// The tray: every piece of the card in the order it is laid, with what is stamped on it.
import { button, el, region, svg } from "./dom.js";
import { lights, piece, relight } from "./picture.js";
import { choose, element, findingsOf, store, value } from "./store.js";
import { dragOrder, orderKeys, siblings } from "./order.js";
import { colourOf } from "./refs.js";
import { nice } from "./measure.js";
import { counted, kindWords, placeWords } from "./words.js";

export function drawTray(root, card, at) {
  const tops = card.things.filter((t) => !card.things.some((p) => p.key === t.parent && isInside(t)));
  const made = [card.things.map((t) => [t.key, t.name, t.letter, placeWords(t), t.kind, t.x, t.y, t.width, t.height, findingsOf(t.key).length]),
    store.chosen, at.svg ? at.picture.shown?.length : 0, at.view];
  const drawn = region(root, made, () => [
    el("h2", { id: "tray-title" }, "The tray"),
    el("p", { class: "quiet" }, "Pieces in the order you lay them. Drag one, or use Alt with an arrow key, to lay it earlier or later."),
    el("ol", { class: "tray", "aria-labelledby": "tray-title" }, tops.map((t) => compartment(root, card, t, at))),
  ]);
  if (drawn) relight(root);
}

const isInside = (thing) => element(thing.key) && !["card"].includes(parentTag(thing.key));
const parentTag = (key) => store.elements.get(key)?.parent?.tag;

function compartment(root, card, thing, at) {
  const inner = card.things.filter((t) => t.parent === thing.key && isInside(t));
  const item = el("li", { "data-order": thing.key }, entry(card, thing, at),
    inner.length > 0 && el("ul", { "aria-label": `On ${thing.name}` }, inner.map((t) => el("li", {}, entry(card, t, at, true)))));
  const movableKeys = new Set(siblings(thing.key).map((s) => s.key));
  if (movableKeys.size > 1) dragOrder(item, thing.key, () => [...root.querySelectorAll("[data-order]")]
    .filter((n) => movableKeys.has(n.dataset.order)).map((node) => ({ key: node.dataset.order, node })));
  return item;
}

function entry(card, thing, at, small) {
  const notes = findingsOf(thing.key).filter((f) => f.severity !== "remark").length;
  const chosen = store.chosen === thing.key;
  return button([swatch(thing, at, small), el("span", { class: "name" }, thing.letter && el("b", { class: "letter" }, thing.letter), " ", thing.name),
    !small && el("span", { class: "where quiet" }, nice(placeWords(thing).split(", ").slice(0, 2).join(", ")) || kindWords(thing.kind)),
    notes > 0 && el("span", { class: "badge" }, counted(notes, "note", "notes"))],
  () => choose(chosen ? null : thing.key), {
    class: `piece${small ? " small" : ""}`, "aria-pressed": String(chosen), "data-thing": thing.key, "data-focus": `tray:${thing.key}`,
    on: { ...lights(thing.key), keydown: (e) => trayKeys(e, thing.key) },
  });
}

function trayKeys(event, key) {
  if (orderKeys(event, key)) return;
  const by = { ArrowLeft: -1, ArrowUp: -1, ArrowRight: 1, ArrowDown: 1 }[event.key];
  if (!by) return;
  const all = [...event.currentTarget.closest(".tray").querySelectorAll("button.piece")];
  all[all.indexOf(event.currentTarget) + by]?.focus();
  event.preventDefault();
}

// The piece itself, cut out of the picture; else a plain one of its colour and shape.
function swatch(thing, at, small) {
  const cut = thing.view === at.view && thing.width > 0 ? piece(at.svg, thing) : null;
  if (cut) return cut;
  const e = element(thing.key), w = thing.width || 3, h = thing.height || 2, long = Math.max(w, h);
  const id = value(e ?? { attributes: [] }, "stock") ?? value(e, "of") ?? value(e, "ink")?.split(" ")[0] ?? value(e, "with");
  return svg("svg", { viewBox: `${-long * 0.05} ${-long * 0.05} ${long * 1.1} ${long * 1.1}`, class: `swatch${small ? " small" : ""}`, "aria-hidden": "true" },
    svg("rect", { x: (long - w) / 2, y: (long - h) / 2, width: w, height: h, rx: long * 0.01, fill: colourOf(id) ?? "#cfc7b5", stroke: "#6a6152", "stroke-width": long * 0.012 }));
}
