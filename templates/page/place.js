// Where a thing lies, in true millimetres within what carries it, and the words of `at` for it.
import { length, written } from "./measure.js";

// A thing's rectangle within its carrier, in mm: left, top, width, height, and the carrier's size.
export function within(thing, scale) {
  const c = thing.carrier ?? { x: thing.x, y: thing.y, width: thing.width, height: thing.height };
  return {
    left: (thing.x - c.x) / scale, top: (thing.y - c.y) / scale,
    width: thing.width / scale, height: thing.height / scale,
    across: c.width / scale, down: c.height / scale,
  };
}

export const right = (r) => r.across - r.left - r.width;
export const bottom = (r) => r.down - r.top - r.height;
const near = (a, b) => Math.abs(a - b) < 0.02;
export const centredAcross = (r) => near(r.left, right(r));
export const centredDown = (r) => near(r.top, bottom(r));

// The parts of `at`: what is said across, down, and the rest (row, column, grid, scatter, over …).
export function parts(at) {
  const out = { across: null, down: null, rest: [] };
  for (const said of String(at ?? "").split(",").map((s) => s.trim()).filter(Boolean)) {
    const m = /^(?:(.+?)\s+from\s+)?(left|right|top|bottom)(?:\s+(left|right|top|bottom))?$/.exec(said);
    const moved = /^(.+?)\s+(up|down|left|right)$/.exec(said);
    if (moved && !/ from$/.test(moved[1]) && !["top", "bottom"].includes(moved[1])) {
      out[["left", "right"].includes(moved[2]) ? "across" : "down"] = { edge: "centre", said };
    } else if (m) {
      for (const edge of [m[2], m[3]].filter(Boolean))
        out[["left", "right"].includes(edge) ? "across" : "down"] = { edge, said, flush: !m[1] };
    } else if (!/^cent(?:re|er)(?:ed)?$/.test(said)) out.rest.push(said);
  }
  return out;
}

// The words of `at` for a rectangle. What was measured from the right or the bottom still is; what is
// in the middle need not be said. A ribbon is told by its middle line.
export function atWords(r, before, unit, { along } = {}) {
  const was = parts(before);
  const arranged = was.rest.find((w) => ["row", "column", "grid", "scatter"].includes(w));
  const say = (mm, edge) => (near(mm, 0) ? edge : `${written(Math.max(0, mm), unit)} from ${edge}`);
  if (along) {
    const across = along === "height";
    const mm = across ? r.left + r.width / 2 : r.top + r.height / 2;
    return `${written(Math.max(0, mm), unit)} from ${across ? "left" : "top"}`;
  }
  const out = arranged ? [arranged] : [];
  const across = centredAcross(r) ? null : was.across?.edge === "right" ? say(right(r), "right") : say(r.left, "left");
  const down = centredDown(r) ? null : was.down?.edge === "bottom" ? say(bottom(r), "bottom") : say(r.top, "top");
  const kept = arranged === "row" ? [was.across?.said ?? null, down] : arranged === "column" ? [across, was.down?.said ?? null] : [across, down];
  out.push(...kept.filter(Boolean));
  return out.length === 0 ? "centre" : out.length === 1 && !arranged && !(across && down) ? `centre, ${out[0]}` : out.join(", ");
}

// All places moved by the same, so that copies keep their distances.
export function placesMoved(places, dx, dy, unit) {
  return String(places).split(";").map((point) => {
    const [x, y] = point.split(",").map((one) => length(one, unit));
    if (Number.isNaN(x) || Number.isNaN(y)) return null;
    return `${written(Math.max(0, x + dx), unit)}, ${written(Math.max(0, y + dy), unit)}`;
  });
}

// What shows of the carrier on each side, as people say it.
export function reveals(r, told) {
  const [l, t, ri, b] = [r.left, r.top, right(r), bottom(r)];
  if (near(l, t) && near(l, ri) && near(l, b)) return `${told(l)} shows on every side`;
  const across = near(l, ri) ? `${told(l)} left and right` : `${told(l)} left, ${told(ri)} right`;
  const down = near(t, b) ? `${told(t)} above and below` : `${told(t)} above, ${told(b)} below`;
  return `${across}; ${down}`;
}
