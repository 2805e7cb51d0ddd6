// Dragging a piece or one of its handles. What is moved is shown at once; the program is asked when
// the pointer is let go.
import { hands, svg } from "./dom.js";
import { edit, store } from "./store.js";
import { kept, movable, move, neighbours, resizable, sizeEdits, under, whyNot } from "./move.js";
import { within } from "./place.js";
import { resized, snapped } from "./snap.js";
import { drawOverlay, point, readOut, unitsPerPixel } from "./overlay.js";
import { told } from "./measure.js";

export function startDrag(at, thing, handle, event) {
  const drag = { at, thing, handle, from: point(at, event), was: within(thing, at.scale), r: null, moved: false };
  const follow = (e) => onMove(drag, e);
  const stop = (done) => (e) => {
    at.overlay.removeEventListener("pointermove", follow);
    for (const [type, act] of ends) at.overlay.removeEventListener(type, act);
    document.removeEventListener("keydown", escape, true);
    finish(drag, done && e.type === "pointerup");
  };
  const ends = [["pointerup", stop(true)], ["pointercancel", stop(false)]];
  const escape = (e) => { if (e.key === "Escape") { e.stopPropagation(); ends[1][1](e); } };
  at.overlay.addEventListener("pointermove", follow);
  for (const [type, act] of ends) at.overlay.addEventListener(type, act);
  document.addEventListener("keydown", escape, true);
  at.overlay.setPointerCapture(event.pointerId);
  drag.groups = groupsOf(at, thing);
}

// The drawn groups that go with a piece: its own and those of what lies on it.
function groupsOf(at, thing) {
  const things = store.things.get(thing.key)?.card.things ?? [];
  const keys = new Set([thing.key, ...things.filter((t) => under(t, thing.key)).map((t) => t.key)]);
  const all = [...at.picture.querySelectorAll("[data-thing]")].filter((g) => keys.has(g.dataset.thing));
  return all.filter((g) => !all.some((other) => other !== g && other.contains(g)))
    .map((node) => ({ node, transform: node.getAttribute("transform") ?? "" }));
}

function onMove(drag, event) {
  const { at, thing, was } = drag, p = point(at, event);
  const dx = p.x - drag.from.x, dy = p.y - drag.from.y, u = unitsPerPixel(at);
  if (!drag.moved && Math.hypot(dx, dy) < 3 * u) return;
  if (!drag.handle && !movable(thing)) { at.readout.textContent = whyNot(thing); return; }
  drag.moved = hands.busy = true;
  at.stage.classList.add("dragging");
  const mm = { x: dx / at.scale, y: dy / at.scale }, mark = store.project.mark;
  let lines = [], words = [];
  if (drag.handle) drag.r = sized(drag, mm, mark);
  else {
    const wished = kept(thing, was, { ...was, left: was.left + mm.x, top: was.top + mm.y });
    const rest = event.ctrlKey ? { left: wished.left, top: wished.top, lines, words }
      : snapped(wished, neighbours(at, thing), 6 * u / at.scale, mark);
    drag.r = kept(thing, was, { ...wished, left: rest.left, top: rest.top });
    ({ lines, words } = rest);
  }
  showMove(drag, lines);
  readOut(at, thing, drag.r, words);
}

function sized({ was, handle, thing }, mm, mark) {
  const r = { ...was };
  const middle = (start, size, whole) => Math.abs(start * 2 + size - whole) < 0.02;
  if (!resizable(thing)) return r;
  if (/[ew]/.test(handle)) {
    const end = handle.includes("e");
    const to = { edge: end ? "end" : "start", at: (end ? was.left + was.width : was.left) + mm.x };
    const side = resized(was, "across", to, mark, middle(was.left, was.width, was.across));
    r.left = side.start; r.width = side.size;
  }
  if (/[ns]/.test(handle)) {
    const end = handle.includes("s");
    const to = { edge: end ? "end" : "start", at: (end ? was.top + was.height : was.top) + mm.y };
    const side = resized(was, "down", to, mark, middle(was.top, was.height, was.down));
    r.top = side.start; r.height = side.size;
  }
  return r;
}

function showMove({ at, thing, was, r, groups, handle }, lines) {
  const s = at.scale, c = thing.carrier ?? { x: thing.x, y: thing.y, width: thing.width, height: thing.height };
  const dx = (r.left - was.left) * s, dy = (r.top - was.top) * s;
  if (!handle) for (const { node, transform } of groups) node.setAttribute("transform", `translate(${dx} ${dy}) ${transform}`.trim());
  const box = { x: c.x + r.left * s, y: c.y + r.top * s, width: r.width * s, height: r.height * s };
  const u = unitsPerPixel(at), say = (mm) => told(mm, store.project);
  const guides = [svg("rect", { ...box, class: "ghost" })];
  for (const line of lines) guides.push(line.x != null
    ? svg("line", { class: "snap", x1: c.x + line.x * s, x2: c.x + line.x * s, y1: c.y, y2: c.y + c.height })
    : svg("line", { class: "snap", x1: c.x, x2: c.x + c.width, y1: c.y + line.y * s, y2: c.y + line.y * s }));
  const middleX = box.x + box.width / 2, middleY = box.y + box.height / 2;
  const gap = (words, x, y) => svg("text", { x, y, class: "gap", "font-size": 12 * u, "stroke-width": 4 * u, "text-anchor": "middle" }, words);
  if (r.left > 0) guides.push(gap(say(r.left), c.x + r.left * s / 2, middleY));
  if (r.across - r.left - r.width > 0) guides.push(gap(say(r.across - r.left - r.width), (box.x + box.width + c.x + c.width) / 2, middleY));
  if (r.top > 0) guides.push(gap(say(r.top), middleX, c.y + r.top * s / 2));
  if (r.down - r.top - r.height > 0) guides.push(gap(say(r.down - r.top - r.height), middleX, (box.y + box.height + c.y + c.height) / 2));
  at.overlay.querySelector(".guides").replaceChildren(...guides);
}

async function finish(drag, done) {
  const { at, thing, was, r, groups } = drag;
  at.stage.classList.remove("dragging");
  hands.busy = false;
  const back = () => { for (const { node, transform } of groups) transform ? node.setAttribute("transform", transform) : node.removeAttribute("transform"); };
  if (!drag.moved || !r || !done) { back(); drawOverlay(at); return; }
  at.picture.shown = undefined; // it shows the piece where it is not yet
  const answer = drag.handle ? await edit(sizeEdits(thing, was, r)) : await move(at, thing, r);
  if (!answer) { back(); drawOverlay(at); }
}
