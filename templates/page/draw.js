// A new panel of the size that is drawn on the card: two taps at opposite corners, or one drag.
import { say, svg } from "./dom.js";
import { element, store } from "./store.js";
import { point } from "./overlay.js";
import { setMode } from "./surface.js";
import { addElement } from "./add.js";
import { atWords } from "./place.js";
import { told, toMark, written } from "./measure.js";

export function drawPiece(at) {
  const sides = store.project.cards.find((c) => c.key === at.card?.key)?.sides.filter((s) => s.view === at.view) ?? [];
  if (sides.length === 0) { say("Pieces are drawn on a side of the card: choose the front, the opened card or the back."); return; }
  let first = null, carrier = null, face = null;
  setMode(at, "Tap two opposite corners of the new piece, or drag from one to the other.", (p, event) => {
    if (first) { finish(at, carrier, first, p, face); return; }
    first = p;
    carrier = sideAt(sides, p);
    face = carrier.on;
    const follow = (e) => show(at, carrier, first, point(at, e));
    const up = (e) => {
      at.overlay.removeEventListener("pointermove", follow);
      const end = point(at, e);
      if (Math.hypot(end.x - first.x, end.y - first.y) > 3 / at.scale) finish(at, carrier, first, end, face);
      else { at.readout.textContent = "Now tap the opposite corner."; at.overlay.addEventListener("pointermove", follow); }
    };
    at.overlay.addEventListener("pointermove", follow);
    at.overlay.addEventListener("pointerup", up, { once: true });
    at.overlay.setPointerCapture(event.pointerId);
  });
}

// The smallest side that holds the point: a gate rather than the closed front, one half of the inside.
function sideAt(sides, p) {
  const holds = (s) => p.x >= s.x && p.x <= s.x + s.width && p.y >= s.y && p.y <= s.y + s.height;
  const area = (s) => s.width * s.height;
  const here = sides.filter(holds);
  return (here.length > 0 ? here : sides).reduce((a, b) => (area(b) < area(a) ? b : a));
}

function rectangle(at, c, a, b) {
  const mark = store.project.mark, mm = (v) => toMark(v / at.scale, mark);
  const left = mm(Math.max(0, Math.min(a.x, b.x) - c.x)), top = mm(Math.max(0, Math.min(a.y, b.y) - c.y));
  return { left, top, width: Math.max(mark, mm(Math.abs(a.x - b.x))), height: Math.max(mark, mm(Math.abs(a.y - b.y))),
    across: c.width / at.scale, down: c.height / at.scale };
}

function show(at, c, a, b) {
  const r = rectangle(at, c, a, b), s = at.scale;
  at.overlay.querySelector(".guides")?.replaceChildren(
    svg("rect", { x: c.x + r.left * s, y: c.y + r.top * s, width: r.width * s, height: r.height * s, class: "ghost" }));
  at.readout.textContent = `${told(r.width, store.project)} × ${told(r.height, store.project)}`;
}

async function finish(at, c, a, b, face) {
  const r = rectangle(at, c, a, b), unit = store.project.unit;
  at.mode?.stop();
  await addElement("panel", element(at.card.key), { but: ["inset"],
    given: { on: face, size: `${written(r.width, unit)} x ${written(r.height, unit)}`, at: atWords(r, "", unit) } });
}
