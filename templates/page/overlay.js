// What lies over the picture: where to point, what is chosen, how far it is from the edges.
import { svg } from "./dom.js";
import { boxOf, lights } from "./picture.js";
import { findingsOf, store } from "./store.js";
import { movable, resizable } from "./move.js";
import { centredAcross, centredDown, reveals, within } from "./place.js";
import { told } from "./measure.js";
import { spelt } from "./words.js";

export const unitsPerPixel = (at) => boxOf(at.svg).width / at.sheet.getBoundingClientRect().width;
export const thingsHere = (at) => store.project.cards.find((c) => c.key === at.card.key)?.things
  .filter((t) => t.view === at.view && t.width > 0).sort((a, b) => a.order - b.order) ?? [];

// What lies over the picture: a place to point at for each piece, the chosen one's outline and handles.
export function drawOverlay(at) {
  if (!at.svg || at.sheet.getBoundingClientRect().width === 0) return; // not on the table now
  const out = [];
  for (const thing of thingsHere(at)) {
    const turned = thing.angle ? `rotate(${thing.angle} ${thing.x + thing.width / 2} ${thing.y + thing.height / 2})` : null;
    const shape = { x: thing.x, y: thing.y, width: thing.width, height: thing.height, transform: turned };
    const chosen = store.chosen === thing.key;
    out.push(svg("rect", { ...shape, class: `hit${chosen ? " chosen" : ""}${chosen && movable(thing) ? " movable" : ""}`,
      "data-key": thing.key, "data-thing": thing.key, on: { pointerenter: lights(thing.key).pointerenter, pointerleave: lights(thing.key).pointerleave } }));
  }
  const chosen = thingsHere(at).find((t) => t.key === store.chosen);
  if (chosen) out.push(...outline(at, chosen));
  out.push(...marks(at), svg("g", { class: "guides" }));
  at.overlay.replaceChildren(...out);
  readOut(at, chosen);
}

function outline(at, thing) {
  const u = unitsPerPixel(at), x2 = thing.x + thing.width, y2 = thing.y + thing.height;
  const turned = thing.angle ? `rotate(${thing.angle} ${thing.x + thing.width / 2} ${thing.y + thing.height / 2})` : null;
  const out = [svg("rect", { x: thing.x, y: thing.y, width: thing.width, height: thing.height, class: "outline", transform: turned }),
    svg("rect", { x: thing.x, y: thing.y, width: thing.width, height: thing.height, class: "outline dashes", transform: turned })];
  if (!resizable(thing)) return out;
  const spots = { nw: [thing.x, thing.y], ne: [x2, thing.y], sw: [thing.x, y2], se: [x2, y2], n: [(thing.x + x2) / 2, thing.y],
    s: [(thing.x + x2) / 2, y2], w: [thing.x, (thing.y + y2) / 2], e: [x2, (thing.y + y2) / 2] };
  for (const [name, [x, y]] of Object.entries(spots)) {
    const half = 5 * u, reach = 12 * u;
    out.push(svg("rect", { x: x - half, y: y - half, width: 2 * half, height: 2 * half, class: "handle" }),
      svg("rect", { x: x - reach, y: y - reach, width: 2 * reach, height: 2 * reach, class: `grip ${name}`, "data-handle": name, "data-key": thing.key }));
  }
  return out;
}

// A mark at each piece that a note is about.
function marks(at) {
  const u = unitsPerPixel(at), out = [];
  for (const thing of thingsHere(at)) {
    const notes = findingsOf(thing.key).filter((f) => f.severity !== "remark");
    if (notes.length === 0) continue;
    const x = thing.x + thing.width - 4 * u, y = thing.y + 4 * u;
    out.push(svg("g", { class: `mark ${notes[0].severity}` }, svg("circle", { cx: x, cy: y, r: 9 * u }),
      svg("text", { x, y: y + 4.4 * u, "font-size": 13 * u, "text-anchor": "middle" }, "!")));
  }
  return out;
}

export function readOut(at, thing, rect, words = []) {
  const say = (mm) => told(mm, store.project);
  if (!thing) {
    at.readout.textContent = at.view?.startsWith("step-") ? "" : "Tap a piece to see its measures.";
    return;
  }
  const r = rect ?? within(thing, at.scale);
  const more = words.filter((w) => w !== "centered");
  const where = [centredAcross(r) && spelt("centered across"), centredDown(r) && spelt("centered down")].filter(Boolean);
  at.readout.textContent = `${thing.name}: ${say(r.width)} × ${say(r.height)}. ${reveals(r, say)}` +
    `${where.length ? `; ${where.join(", ")}` : ""}${more.length ? ` — ${more.join(", ")}` : ""}.`;
}

// Where the pointer is, in the picture's units.
export function point(at, event) {
  const box = at.overlay.getBoundingClientRect(), view = boxOf(at.svg);
  return { x: view.x + (event.clientX - box.left) / box.width * view.width, y: view.y + (event.clientY - box.top) / box.height * view.height };
}
