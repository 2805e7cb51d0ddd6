// A piece moved or sized: what may be, and the edits it comes to. All in true millimetres.
import { say } from "./dom.js";
import { edit, element, store, value } from "./store.js";
import { atWords, parts, placesMoved, reveals, within } from "./place.js";
import { snapped } from "./snap.js";
import { told, toMark, written } from "./measure.js";

export const movable = (thing) => Boolean(thing.fields?.at) && !thing.placeFollows && thing.width > 0;
export const resizable = (thing) => Boolean(thing.fields?.size || (thing.fields?.width && thing.fields?.height)) && !thing.sizeFollows && !thing.angle;
export const whyNot = (thing) => thing.placeFollows
  ? `${thing.name} follows what it lies on. Let it stand alone to move it.`
  : `${thing.name} is placed by what it belongs to.`;

// Copies in a row stay in their row, a ribbon moves across itself only.
export function locked(thing) {
  const e = element(thing.key);
  if (!e) return {};
  if (e.tag === "ribbon") return (value(e, "along") ?? "width") === "width" ? { across: true } : { down: true };
  const rest = parts(value(e, "at")).rest;
  const many = Number(value(e, "times") ?? 1) > 1;
  if (rest.includes("row") || (many && !rest.includes("column"))) return { across: true };
  return rest.includes("column") ? { down: true } : {};
}

export function kept(thing, was, r) {
  const lock = locked(thing);
  return { ...r, ...(lock.across && { left: was.left }), ...(lock.down && { top: was.top }) };
}

export function placeEdits(thing, was, r) {
  const e = element(thing.key), unit = store.project.unit;
  if (thing.fields.at === "places") {
    const points = placesMoved(value(e, "places"), r.left - was.left, r.top - was.top, unit);
    if (points.includes(null)) return null;
    return [{ op: "set", key: thing.key, attribute: "places", value: points.join("; ") }];
  }
  const along = e.tag === "ribbon" ? value(e, "along") ?? "width" : undefined;
  return [{ op: "set", key: thing.key, attribute: thing.fields.at, value: atWords(r, value(e, "at"), unit, { along }) }];
}

export function sizeEdits(thing, was, r) {
  const unit = store.project.unit, set = (attribute, words) => ({ op: "set", key: thing.key, attribute, value: words });
  const out = thing.fields.size
    ? [set(thing.fields.size, `${written(r.width, unit)} x ${written(r.height, unit)}`)]
    : [set(thing.fields.width, written(r.width, unit)), set(thing.fields.height, written(r.height, unit))];
  const e = element(thing.key);
  const at = thing.fields.at === "at" ? atWords(r, value(e, "at"), unit) : null;
  if (at && at !== atWords(was, value(e, "at"), unit)) out.push(set("at", at));
  return out;
}

// The other pieces in the same carrier, to be level with.
export function neighbours(at, thing) {
  const c = thing.carrier;
  if (!c) return [];
  return (store.things.get(thing.key)?.card.things ?? [])
    .filter((t) => t.key !== thing.key && t.view === thing.view && !t.angle && t.kind !== "base" && !under(t, thing.key) && t.width > 0)
    .map((t) => ({ name: t.name, left: (t.x - c.x) / at.scale, top: (t.y - c.y) / at.scale, width: t.width / at.scale, height: t.height / at.scale }));
}

export function under(thing, key) {
  for (let t = thing; t; t = store.things.get(t.parent)?.thing) if (t.parent === key) return true;
  return false;
}

// Moves are one after another before the first is answered: each goes on from the last.
const pending = { key: null, r: null, open: 0 };

async function send(thing, was, r, edits, group) {
  if (!edits) { say("Its places are worked out: change them in words."); return null; }
  pending.key = thing.key;
  pending.r = r;
  ++pending.open;
  const answer = await edit(edits, { group });
  if (--pending.open === 0) pending.key = null;
  return answer;
}

export async function move(at, thing, to, { snap, group } = {}) {
  const was = within(thing, at.scale);
  let r = kept(thing, was, to);
  if (snap) {
    const rest = snapped(r, neighbours(at, thing), 1.5 * store.project.mark, store.project.mark);
    r = kept(thing, was, { ...r, left: rest.left, top: rest.top });
  }
  return send(thing, was, r, placeEdits(thing, was, r), group);
}

export async function nudge(at, thing, dx, dy, size) {
  const was = within(thing, at.scale), now = pending.key === thing.key ? pending.r : was;
  const mark = store.project.mark;
  let r, edits;
  if (size) {
    if (!resizable(thing)) { say(`The size of ${thing.name} comes from elsewhere.`); return; }
    r = { ...now, width: Math.max(mark, toMark(now.width + dx, mark)), height: Math.max(mark, toMark(now.height + dy, mark)) };
    const e = parts(value(element(thing.key), "at"));
    if (!e.across || e.across.edge === "centre") r.left = now.left - (r.width - now.width) / 2;
    if (e.across?.edge === "right") r.left = now.left - (r.width - now.width);
    if (!e.down || e.down.edge === "centre") r.top = now.top - (r.height - now.height) / 2;
    if (e.down?.edge === "bottom") r.top = now.top - (r.height - now.height);
    edits = sizeEdits(thing, was, r);
  } else {
    r = kept(thing, was, { ...now, left: toMark(now.left + dx, mark), top: dy === 0 ? now.top : toMark(now.top + dy, mark) });
    if (dx === 0) r.left = now.left;
    edits = placeEdits(thing, was, r);
  }
  await send(thing, was, r, edits, `${size ? "size" : "move"}:${thing.key}`);
  say(size ? `${told(r.width, store.project)} by ${told(r.height, store.project)}` : reveals(r, (mm) => told(mm, store.project)));
}

// A piece that follows what it lies on gets a size and a place of its own, the same as now.
export function standAlone(thing, scale) {
  const r = within(thing, scale), e = element(thing.key), unit = store.project.unit;
  const edits = [];
  if (value(e, "inset") !== undefined) edits.push({ op: "set", key: e.key, attribute: "inset", value: "", remove: true });
  for (const side of ["width", "height"])
    if (value(e, side) !== undefined) edits.push({ op: "set", key: e.key, attribute: side, value: "", remove: true });
  edits.push({ op: "set", key: e.key, attribute: "size", value: `${written(r.width, unit)} x ${written(r.height, unit)}` },
    { op: "set", key: e.key, attribute: "at", value: atWords(r, value(e, "at"), unit) });
  return edit(edits, { words: `${thing.name} stands alone now.` });
}

// … and the other way: the same is left on every side, as much as shows now where least shows.
export function follow(thing, scale) {
  const r = within(thing, scale), e = element(thing.key);
  const least = Math.max(0, Math.min(r.left, r.top, r.across - r.left - r.width, r.down - r.top - r.height));
  const edits = ["size", "width", "height", "at"].filter((name) => value(e, name) !== undefined)
    .map((attribute) => ({ op: "set", key: e.key, attribute, value: "", remove: true }));
  edits.push({ op: "set", key: e.key, attribute: "inset", value: written(toMark(least, store.project.mark), store.project.unit) });
  return edit(edits, { words: `${thing.name} follows what it lies on.` });
}
