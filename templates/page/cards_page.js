// The table with all cards, their fronts finished and at one scale.
import { button, el, newId, region } from "./dom.js";
import { address, showImage } from "./picture.js";
import { choose, edit, element, store } from "./store.js";
import { counted } from "./words.js";
import { nice } from "./measure.js";
import { go, to } from "./router.js";
import { dragOrder, orderKeys } from "./order.js";
import { addElement } from "./add.js";
import { factList } from "./slip.js";

export function drawCards(root) {
  const { cards, title } = store.project;
  const tallest = Math.max(...cards.map((c) => c.height), 1);
  const made = ["cards", title, cards.map((c) => [c.key, c.name, c.size, c.minutes, c.level, c.width, c.height, notesOf(c).length])];
  region(root, made, () => [
    el("h1", {}, title),
    el("p", { class: "lead" }, `${counted(cards.length, "card", "cards")} on the table. Choose one to look at it closely and change it.`),
    el("ol", { class: "table", "aria-label": "Cards" }, cards.map((c) => cardOnTable(root, c, tallest))),
    newCard(),
    el("details", { class: "aside-facts" }, el("summary", {}, "What it comes to"), el("div", { class: "few-facts" })),
  ]);
  region(root.querySelector(".few-facts"), store.project.facts, factList);
  for (const image of root.querySelectorAll("img[data-card]")) showImage(image, address(image.dataset.card, "front"), store.project.rev);
}

const notesOf = (card) => store.project.findings.filter((f) => f.card === card.id && f.severity !== "remark");

function cardOnTable(root, card, tallest) {
  const notes = notesOf(card).length;
  const picture = el("img", { "data-card": card.id, alt: "", draggable: "false" });
  picture.style.setProperty("--tall", String(card.height / tallest));
  const item = el("li", { "data-order": card.key },
    el("a", { href: to("card", card.id, "front"), draggable: "false", "data-focus": `card:${card.key}`, on: { keydown: (e) => orderKeys(e, card.key) } },
      picture, el("span", { class: "title" }, card.name)),
    el("p", { class: "quiet" }, [nice(card.size), card.minutes ? `${card.minutes} min` : "", card.level].filter(Boolean).join(" · ")),
    notes > 0 && el("p", {}, el("span", { class: "badge" }, counted(notes, "note", "notes"))));
  dragOrder(item, card.key, () => [...root.querySelectorAll("[data-order]")].map((node) => ({ key: node.dataset.order, node })));
  return item;
}

// A new card from a form, or a copy of one that is there.
function newCard() {
  const form = newId("form"), size = newId("size");
  const forms = choicesOf("form"), mm = store.project.unit === "mm";
  const of = (id) => document.getElementById(id).value;
  const make = async () => {
    const made = await addElement("card", store.project.elements, { before: afterCards(), given: { form: of(form), size: of(size) } });
    if (made) open(made);
  };
  return el("details", { class: "new-card" }, el("summary", { "data-focus": "new-card" }, "Put another card on the table"),
    el("div", { class: "line" },
      el("div", { class: "field" }, el("label", { for: form }, "Fold"), el("select", { id: form, "data-focus": "new-card:form" },
        forms.map((f) => el("option", { value: f }, f.replaceAll("-", " "))))),
      el("div", { class: "field" }, el("label", { for: size }, "Size, closed"), el("input", { id: size, type: "text", value: mm ? "A6" : "A2", "data-focus": "new-card:size" })),
      button("Make it", make, { "data-focus": "new-card:make" })),
    el("p", {}, "Or copy one: ", store.project.cards.map((c) => [button(c.name, () => copy(c.key), { class: "small", "data-focus": `copy:${c.key}` }), " "])));
}

const choicesOf = (name) => store.tags.card?.attributes.find((a) => a.name === name)?.choices ?? ["top-fold", "side-fold", "flat"];
function afterCards() {
  const children = store.project.elements.children, last = children.findLastIndex((c) => c.tag === "card");
  return children[last + 1]?.key;
}
async function copy(key) {
  const answer = await edit([{ op: "duplicate", key }], { words: "A copy lies on the table." });
  const made = answer?.added.find((k) => element(k)?.tag === "card");
  if (made) open(made);
}
function open(key) {
  const card = store.project.cards.find((c) => c.key === key);
  choose(null);
  if (card) go("card", card.id, "front");
}
