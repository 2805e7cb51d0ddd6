// One card on the work surface, with its views, the order of making and its tray.
import { button, el, handsFree, region } from "./dom.js";
import { store } from "./store.js";
import { createSurface, drawSurface, keysHelp, setMode, showCard, trueSize } from "./surface.js";
import { drawSteps } from "./steps.js";
import { drawTray } from "./tray.js";
import { photoBox } from "./photo.js";
import { drawPiece } from "./draw.js";
import { nice } from "./measure.js";
import { to } from "./router.js";
import { kindWords } from "./words.js";

export function createCardPage() {
  const at = createSurface();
  const parts = { head: el("div", { class: "card-head" }), views: el("nav", { class: "views", "aria-label": "Views of the card" }),
    tools: el("div", { class: "tools" }), steps: el("section", { class: "steps", "aria-labelledby": "steps-title" }),
    tray: el("section", { class: "tray-box", "aria-labelledby": "tray-title" }) };
  const surface = el("section", { class: "surface", "aria-label": "Work surface" }, parts.views, at.stage, at.readout, at.toSlip, parts.tools);
  const root = el("div", { class: "card-page" }, parts.head, surface, parts.steps, parts.tray);
  const page = { root, parts, at, key: null };
  parts.tools.append(...tools(page));
  document.addEventListener("fullscreenchange", () => { at.zoom = 1; drawSurface(at); });
  new ResizeObserver(() => drawSurface(at)).observe(at.stage);
  return page;
}

export async function drawCardPage(page, route) {
  const card = store.project.cards.find((c) => c.id === route.card);
  if (!card) { region(page.parts.head, "gone", () => el("h1", {}, "This card is not on the table any more.")); return null; }
  const { parts, at } = page;
  if (page.key !== card.key || at.view !== route.view) at.mode?.stop();
  page.key = card.key;
  const showing = showCard(at, card, route.view);
  region(parts.head, [card.name, card.form, card.size, card.minutes, card.level], () => [
    el("h1", {}, card.name),
    el("p", { class: "quiet" }, [kindWords(card.form), nice(card.size), card.minutes ? `${card.minutes} min to make` : "", card.level].filter(Boolean).join(" · "))]);
  region(parts.views, [card.id, card.views, route.view], () => card.views.map((v) =>
    el("a", { href: to("card", card.id, v.id), "aria-current": v.id === route.view ? "page" : null, "data-focus": `view:${v.id}` }, v.name)));
  drawSteps(parts.steps, card, route.view);
  const drawn = await showing;
  await new Promise((done) => setTimeout(done, 20)); // the picture is painted before its pieces are cut out of it
  await handsFree();
  drawTray(parts.tray, card, at);
  return drawn;
}

function tools(page) {
  const { at } = page;
  const zoom = (by) => { at.zoom = Math.min(6, Math.max(0.4, at.zoom * by)); drawSurface(at); };
  return [
    el("div", { class: "group", role: "group", "aria-label": "How large" },
      button("−", () => zoom(1 / 1.25), { "aria-label": "Smaller" }), button("+", () => zoom(1.25), { "aria-label": "Larger" }),
      button("Whole card", () => { at.zoom = 1; drawSurface(at); }), button("True size", () => { trueSize(at); drawSurface(at); })),
    el("div", { class: "group" }, button("Draw a piece", () => drawPiece(at)), button("Full screen", () => at.stage.requestFullscreen?.().then(() => at.stage.focus()))),
    el("details", {}, el("summary", {}, "Keys"), el("p", { class: "quiet" }, keysHelp), el("p", { class: "quiet" },
      "Full screen, the left and right arrow turn the steps like slides. Control Z takes back, Control S saves. Hold Control while you drag to move freely, without snapping.")),
    photoBox(at, setMode),
  ];
}
