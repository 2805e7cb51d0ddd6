// Brings the parts of the page together: shows what the address names, hears keys and the program.
import { el, forget, handsFree, say, warn } from "./dom.js";
import { idle, listen, Refusal } from "./server.js";
import { choose, load, onChange, redo, refused, store, undo } from "./store.js";
import { where } from "./router.js";
import { drawHeader, save } from "./header.js";
import { drawCards } from "./cards_page.js";
import { createCardPage, drawCardPage } from "./card_page.js";
import { drawSupplies, drawClass } from "./list_page.js";
import { drawNotes } from "./notes.js";
import { drawOrders } from "./orders_page.js";
import { drawPapers } from "./papers_page.js";
import { drawBegin } from "./begin_page.js";
import { drawSlip } from "./slip.js";
import { drawOverlay } from "./overlay.js";

const top = document.getElementById("top"), work = document.getElementById("work"), slip = document.getElementById("slip");
const plain = { cards: drawCards, supplies: drawSupplies, class: drawClass, notes: drawNotes, orders: drawOrders, papers: drawPapers };
const page = { card: null, shown: null, root: null };

function rootFor(route) {
  const name = route.page;
  if (page.shown === name) return page.root;
  page.shown = name;
  if (name === "card") { page.card ??= createCardPage(); page.root = page.card.root; } else page.root = el("div", { class: `page ${name}` });
  work.replaceChildren(page.root);
  return page.root;
}

async function draw(what) {
  if (!store.project) return;
  const route = where(), told = store.told;
  document.body.dataset.page = route.page;
  document.title = `${store.project.unsaved ? "• " : ""}${store.project.title} – Leafwright`;
  const root = rootFor(route);
  if (route.page === "card") {
    // With another piece chosen, the picture stays: only what lies over it is drawn anew.
    if (what === "chosen" && page.card.at.svg) drawOverlay(page.card.at);
    const drawn = drawCardPage(page.card, route); // asks for its picture before all else is drawn
    drawHeader(top, route);
    drawSlip(slip, route, page.card.at);
    await drawn;
    await handsFree();
    drawSlip(slip, route, page.card.at);
  } else {
    drawHeader(top, route);
    await plain[route.page](root);
    drawSlip(slip, route, null);
  }
  // What is shown now. An older drawing may end after a newer one.
  document.body.dataset.drawn = Math.max(told, Number(document.body.dataset.drawn ?? 0));
}

let asked = false;
function drawSoon(what) {
  if (asked) return;
  asked = true;
  Promise.resolve().then(handsFree).then(() => { asked = false; return draw(what); }).catch(trouble);
}

function trouble(error) {
  if (error instanceof Refusal) refused(error);
  else { console.error(error); warn("Something went wrong on this page. Reload it: nothing is lost."); }
}

// Warnings are seen, too, and go when they are read or the next thing is done.
document.addEventListener("leafwright-warning", ({ detail }) => {
  document.querySelector(".toast")?.remove();
  if (!detail) return;
  const toast = el("div", { class: "toast", role: "region", "aria-label": "Message" }, el("p", {}, detail), el("button", { type: "button", on: { click: () => toast.remove() } }, "Close"));
  document.body.append(toast);
  setTimeout(() => toast.remove(), 20000);
});

document.addEventListener("keydown", (event) => {
  const key = event.key.toLowerCase(), typing = event.target.closest?.("input:not([type=range]):not([type=checkbox]), textarea") && event.target.dataset.typed === "yes";
  if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
  if (key === "s") { event.preventDefault(); document.activeElement?.blur?.(); save(); }
  if (key === "z" && !typing) { event.preventDefault(); if (event.shiftKey) redo(); else undo(); }
  if (key === "y" && !typing) { event.preventDefault(); redo(); }
});

window.addEventListener("hashchange", () => {
  const route = where();
  const leaves = route.page !== page.shown;
  if (leaves && !(route.page === "card" && store.chosen)) choose(null);
  draw("route").then(() => { if (leaves) { window.scrollTo(0, 0); work.focus({ preventScroll: true }); } }).catch(trouble);
});
document.getElementById("skip").addEventListener("click", (event) => { event.preventDefault(); work.focus(); work.scrollIntoView(); });

async function heard(kind, data) {
  if (!store.project) return;
  if (kind === "outside" && data.merged === false) {
    await save({ ask: true });
    return;
  }
  if (kind === "job") return;
  if (kind === "facts" && data.facts) {
    if (data.rev && data.rev !== store.project.rev) return;
    store.project.facts = data.facts;
    if (data.findings) store.project.findings = data.findings;
    drawSoon("project");
    return;
  }
  await idle(); // the answer to an edit of this page may be on its way
  if (kind === "project" && data.rev === store.project.rev) return;
  await load().catch(trouble);
  if (kind === "outside") say("The file was changed elsewhere. The changes are in.");
}

async function start() {
  try {
    await load();
  } catch (error) {
    if (error.status !== 404 || !error.answer?.start) {
      work.replaceChildren(el("h1", {}, "This page cannot begin"), el("p", {}, error.answer?.error ?? error.message), el("p", {}, error.answer?.fix ?? ""));
      return;
    }
    document.body.dataset.page = "begin";
    const root = el("div", { class: "page begin" });
    work.replaceChildren(root);
    await drawBegin(root);
  }
}

onChange(drawSoon);
document.addEventListener("leafwright-begun", () => { page.shown = null; forget(slip); drawSoon("project"); });
start().then(() => listen(heard)).catch(trouble);
