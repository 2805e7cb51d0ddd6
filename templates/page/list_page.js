// Lists of what the project holds beside its cards: supplies, kit options, dates, costs.
import { button, el, region } from "./dom.js";
import { choose, findingsOf, rule, single, store, value } from "./store.js";
import { dragOrder, orderKeys, siblings } from "./order.js";
import { addElement } from "./add.js";
import { goToSlip } from "./surface.js";
import { nice } from "./measure.js";
import { colourOf, nameOf } from "./refs.js";
import { counted, elementName, tagWords } from "./words.js";

const supplyGroups = [["stock", "Paper"], ["pack", "Packs of papers"], ["stamps", "Stamps"], ["die", "Dies"], ["ink", "Inks"],
  ["ribbon", "Ribbon"], ["twine", "Twine"], ["embellishment", "Embellishments"], ["adhesive", "Adhesives"], ["tool", "Tools"], ["envelope", "Envelopes"]];

export function drawSupplies(root) {
  const holder = store.project.elements.children.find((c) => c.tag === "supplies");
  region(root, ["supplies", holder, store.chosen, notesMark()], () => [
    el("h1", {}, "Supplies"),
    el("p", { class: "lead" }, "The shelf: papers, stamps, dies, inks and all the rest that the cards are made of."),
    holder ? supplyGroups.map(([tag, title]) => group(root, title, holder.children.filter((c) => c.tag === tag), tag, holder)) : null,
  ]);
}

export function drawClass(root) {
  const top = store.project.elements, of = (tag) => top.children.filter((c) => c.tag === tag);
  const run = of("run")[0], selling = of("selling")[0];
  region(root, ["class", top.attributes, of("tier"), of("intro"), of("maker"), run, selling, store.chosen, notesMark()], () => [
    el("h1", {}, "Kits and dates"),
    el("p", { class: "lead" }, "What buyers may choose, what it costs them, and the days of the work."),
    group(root, "The class", [top, ...of("intro"), ...of("maker"), ...of("caution")], null, top),
    group(root, "Kit options", of("tier"), "tier", top),
    one("Dates and batch", run, "run", top, root),
    one("Cost of selling", selling, "selling", top, root),
  ]);
}

const isNarrow = () => matchMedia("(max-width: 56rem)").matches;
const notesMark = () => store.project.findings.map((f) => f.key + f.severity).join();

// A part of which there is one, with all that stands in it.
function one(title, part, tag, parent, root) {
  if (!part) return el("section", { class: "shelf" }, el("h2", {}, title), button(`+ ${title}`, () => addElement(tag, parent, { before: afterOf(tag) }), { class: "small", "data-focus": `add:${tag}` }));
  const kinds = [...new Set(part.children.map((c) => c.tag))];
  const may = rule(part).children.filter((k) => !(single(part, k) && kinds.includes(k)));
  return el("section", { class: "shelf" }, el("h2", {}, title), el("ul", { class: "rows" }, row(root, part)),
    kinds.map((k) => el("div", {}, el("h3", {}, tagWords(k)), rows(root, part.children.filter((c) => c.tag === k)))),
    el("div", { class: "add", role: "group", "aria-label": `Add to ${title}` }, may.map((k) =>
      button(`+ ${tagWords(k)}`, () => addElement(k, part), { class: "small", "data-focus": `add:${tag}:${k}` }))));
}

const afterOf = (tag) => (tag === "run" ? store.project.elements.children.find((c) => c.tag === "selling")?.key : undefined);

function group(root, title, list, tag, parent) {
  if (list.length === 0 && !tag) return null;
  const before = tag === "tier" ? store.project.elements.children.find((c) => ["run", "selling"].includes(c.tag))?.key : undefined;
  return el("section", { class: "shelf" }, el("h2", {}, title),
    list.length > 0 && rows(root, list),
    tag && button(`+ ${tagWords(tag)}`, () => addElement(tag, parent, { before: list.length === 0 ? before : nextOf(parent, list.at(-1)) ?? before }),
      { class: "small", "data-focus": `add:${tag}` }));
}

const nextOf = (parent, last) => parent.children[parent.children.indexOf(last) + 1]?.key;
const rows = (root, list) => el("ul", { class: "rows" }, list.map((e) => row(root, e)));

function row(root, e) {
  const notes = findingsOf(e.key).filter((f) => f.severity !== "remark").length, chosen = store.chosen === e.key;
  const colour = value(e, "colour") ?? (e.tag === "in-hand" ? colourOf(value(e, "item")) : undefined);
  const chip = colour && /^#[0-9a-f]{3,8}$/i.test(colour) ? el("span", { class: "chip", style: { "background-color": colour } }) : null;
  const item = el("li", { "data-order": e.key }, button([chip, el("span", { class: "name" }, e.tag === "project" ? "Title and language" : elementName(e, nameOf)),
    el("span", { class: "quiet" }, details(e)), notes > 0 && el("span", { class: "badge" }, counted(notes, "note", "notes"))],
  () => { choose(chosen ? null : e.key); if (!chosen && isNarrow()) setTimeout(goToSlip, 60); }, { class: "row", "aria-pressed": String(chosen), "data-focus": `row:${e.key}`, on: { keydown: (k) => orderKeys(k, e.key) } }));
  if (siblings(e.key).length > 1) dragOrder(item, e.key, () => siblings(e.key).map((s) => ({ key: s.key, node: root.querySelector(`[data-order="${CSS.escape(s.key)}"]`) })).filter((s) => s.node));
  return item;
}

const money = (amount) => (amount ? `${value(store.project.elements, "currency") ?? "USD"} ${amount}` : "");
function details(e) {
  const v = (name) => value(e, name);
  const told = [v("size"), v("sheet"), v("weight"), v("width"), v("kind"), v("amount"), v("kits") && `${v("kits")} kits`, v("sheets") && `${v("sheets")} sheets`,
    v("count"), v("length"), v("offcut"), v("minutes") && `${v("minutes")} min`, v("lead-days") && `${v("lead-days")} days`, v("up-to"), v("date"),
    v("reply-by") && `order by ${v("reply-by")}`, v("ship-by") && `ships by ${v("ship-by")}`, money(v("price") ?? v("cost"))];
  return nice(told.filter(Boolean).join(" · "));
}

