// The work surface: one card large, its pieces to point at, choose, move and size.
import { el, say, svg } from "./dom.js";
import { address, boxOf, light, relight, scaleOf, show } from "./picture.js";
import { choose, edit, store } from "./store.js";
import { startDrag } from "./drag.js";
import { movable, move, nudge, whyNot } from "./move.js";
import { drawOverlay, point, readOut, thingsHere } from "./overlay.js";
import { within } from "./place.js";
import { go } from "./router.js";

export const keysHelp = "Page Down and Page Up choose a piece. Arrow keys move it by one mark of the ruler, with Shift by ten; " +
  "with Control they change its size. Enter goes to its measures, Delete takes it away, Escape lets it go.";

export function createSurface() {
  const picture = el("div", { class: "picture" });
  const beneath = el("div", { class: "beneath" });
  const overlay = svg("svg", { class: "overlay", "aria-hidden": "true" });
  const sheet = el("div", { class: "sheet" }, beneath, picture, overlay);
  const help = el("p", { class: "unseen", id: "surface-keys" }, keysHelp);
  const caption = el("div", { class: "caption" });
  const stage = el("div", { class: "stage", id: "stage", tabindex: "0", role: "application", "aria-describedby": "surface-keys",
    "aria-roledescription": "work surface" }, sheet, caption, help);
  const readout = el("p", { class: "readout" });
  const toSlip = el("p", { class: "narrow" }, el("a", { href: "#slip", on: { click: goToSlip } }, "To its measures ↓"));
  const at = { stage, toSlip, caption, sheet, picture, beneath, overlay, readout, card: null, view: null, svg: null, scale: 1, mode: null, zoom: 1 };
  stage.addEventListener("keydown", (event) => onKey(at, event));
  overlay.addEventListener("pointerdown", (event) => onPointer(at, event));
  // A finger on the chosen piece carries it; anywhere else it scrolls the page.
  overlay.addEventListener("touchstart", (event) => {
    if (event.touches.length === 1 && (at.mode || event.target.closest(".movable, .grip"))) event.preventDefault();
  }, { passive: false });
  return at;
}

// On a phone the slip lies below the work.
export function goToSlip(event) {
  event?.preventDefault();
  const heading = document.querySelector("#slip h2");
  if (!heading) return;
  heading.tabIndex = -1;
  heading.focus({ preventScroll: true });
  document.getElementById("beside").scrollIntoView();
}

export async function showCard(at, card, view) {
  at.card = card;
  at.view = view;
  at.stage.setAttribute("aria-label", `${card.name}, ${viewName(card, view)}`);
  const step = card.steps.find((s) => `step-${s.n}` === view);
  at.caption.replaceChildren(...(step ? [el("strong", {}, `${step.n}. ${step.title}`), el("p", {}, step.words)] : [el("strong", {}, card.name)]));
  try {
    const drawn = await show(at.picture, address(card.id, view), store.project.rev);
    if (!drawn) return null;
    at.svg = drawn;
    at.scale = scaleOf(drawn);
    fit(at);
    drawOverlay(at);
    relight(at.picture);
    document.dispatchEvent(new CustomEvent("leafwright-picture", { detail: { card: card.id, view } }));
    return drawn;
  } catch (refusal) {
    at.picture.replaceChildren(el("p", { class: "no-picture" }, refusal.answer?.error ?? "This picture could not be drawn."));
    at.picture.shown = undefined;
    at.overlay.replaceChildren();
    return null;
  }
}

const viewName = (card, view) => card.views.find((v) => v.id === view)?.name ??
  (view.startsWith("step-") ? `Step ${view.slice(5)}` : view);

export function drawSurface(at) {
  if (!at.svg) return;
  fit(at);
  drawOverlay(at);
}

// The sheet is as large as the stage has room for, times the zoom.
export function fit(at) {
  if (!at.svg) return;
  const box = boxOf(at.svg);
  const whole = document.fullscreenElement === at.stage;
  const height = whole ? window.innerHeight - 220 : Math.max(240, Math.min(window.innerHeight * 0.62, 760));
  const room = { width: at.stage.clientWidth - (whole ? 80 : 16), height };
  const width = Math.min(room.width, room.height * box.width / box.height);
  at.sheet.style.width = `${Math.max(80, width * at.zoom)}px`;
  at.overlay.setAttribute("viewBox", `${box.x} ${box.y} ${box.width} ${box.height}`);
}
export function trueSize(at) {
  if (!at.svg) return;
  at.zoom = 1;
  fit(at);
  const now = at.sheet.getBoundingClientRect().width;
  at.zoom = boxOf(at.svg).width / at.scale * 96 / 25.4 / now;
  fit(at);
}

function onPointer(at, event) {
  if (event.button !== 0 || !at.svg) return;
  if (at.mode) { at.mode.down(point(at, event), event); return; }
  const target = event.target.closest("[data-key]");
  at.stage.focus({ preventScroll: true });
  if (!target) { choose(null); return; }
  const key = target.dataset.key, handle = target.dataset.handle;
  const before = store.chosen;
  if (!handle) choose(key);
  const thing = thingsHere(at).find((t) => t.key === key);
  if (thing && (event.pointerType !== "touch" || before === key)) startDrag(at, thing, handle, event);
}

const arrows = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };

function onKey(at, event) {
  if (event.altKey || event.target !== at.stage) return;
  if (document.fullscreenElement === at.stage && (event.key === "ArrowRight" || event.key === "ArrowLeft")) {
    turnStep(at, event.key === "ArrowRight" ? 1 : -1);
    event.preventDefault();
    return;
  }
  const list = thingsHere(at), now = list.findIndex((t) => t.key === store.chosen);
  if (event.key === "PageDown" || event.key === "PageUp") {
    if (list.length === 0) return;
    const by = event.key === "PageDown" ? 1 : -1;
    const next = list[now < 0 ? (by > 0 ? 0 : list.length - 1) : (now + by + list.length) % list.length];
    choose(next.key);
    light(next.key);
    say(`${next.name}. ${next.words}`);
  } else if (event.key === "Escape") {
    if (at.mode) at.mode.stop(); else choose(null);
  } else if (event.key === "Enter" && now >= 0) {
    document.querySelector("#slip input, #slip select, #slip textarea")?.focus();
  } else if (event.key === "Delete" && now >= 0 && list[now].kind !== "base") {
    const next = list[now].parent;
    edit([{ op: "remove", key: list[now].key }], { words: `${list[now].name} is taken away. Undo brings it back.` }).then((done) => done && choose(next));
  } else if (arrows[event.key] && now >= 0) {
    const thing = list[now], [dx, dy] = arrows[event.key], by = store.project.mark * (event.shiftKey ? 10 : 1);
    if (!movable(thing) && !(event.ctrlKey || event.metaKey)) say(whyNot(thing));
    else nudge(at, thing, dx * by, dy * by, event.ctrlKey || event.metaKey);
  } else return;
  event.preventDefault();
}

// Full screen, the steps are slides: the arrows turn them.
export function turnStep(at, by) {
  const now = Number(/^step-(\d+)$/.exec(at.view)?.[1] ?? 0);
  const next = Math.min(at.card.steps.length, Math.max(0, now + by));
  if (next !== now) go("card", at.card.id, next === 0 ? "front" : `step-${next}`);
}

// The next tap says where the chosen piece's middle is to be: a way beside dragging.
export function tapToPlace(at, done) {
  const thing = thingsHere(at).find((t) => t.key === store.chosen);
  if (!thing) { say("This piece is not in this view."); return; }
  setMode(at, "Tap where its middle is to be.", (p) => {
    const r = within(thing, at.scale), c = thing.carrier;
    const left = (p.x - c.x) / at.scale - r.width / 2, top = (p.y - c.y) / at.scale - r.height / 2;
    at.mode.stop();
    move(at, thing, { ...r, left, top }, { snap: true });
    done?.();
  });
}

export function setMode(at, words, down) {
  at.mode?.stop();
  at.stage.classList.add("asking");
  at.readout.textContent = words;
  say(words);
  at.mode = { down, stop: () => { at.mode = null; at.stage.classList.remove("asking"); drawOverlay(at); } };
  at.stage.focus({ preventScroll: true });
  at.stage.scrollIntoView({ block: "nearest" });
}
