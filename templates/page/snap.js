// Where a moved rectangle comes to rest: in the middle, at an edge, level with a neighbour, where it
// leaves the same on two sides, else at the next mark of the ruler.
import { toMark } from "./measure.js";

function nearest(candidates, at, reach) {
  let best = null;
  for (const c of candidates) {
    const off = Math.abs(c.at - at);
    if (off <= reach && (!best || off < Math.abs(best.at - at) - 1e-6)) best = c;
  }
  return best;
}

// `r` as from within(); `others` rectangles {left, top, width, height} in the same carrier's mm.
// One direction: start, size of the thing, size of the carrier, and the names of its two edges.
function along(start, size, whole, others, reach, even, names) {
  const list = [{ at: (whole - size) / 2, line: whole / 2, words: "centered" },
    { at: 0, line: 0, words: `flush ${names[0]}` }, { at: whole - size, line: whole, words: `flush ${names[1]}` }];
  for (const o of others) {
    list.push({ at: o.start, line: o.start, words: `level with ${o.name}` },
      { at: o.start + o.size - size, line: o.start + o.size, words: `level with ${o.name}` },
      { at: o.start + (o.size - size) / 2, line: o.start + o.size / 2, words: `in the middle of ${o.name}` });
  }
  for (const gap of even) {
    list.push({ at: gap, line: null, words: "even reveal" }, { at: whole - size - gap, line: null, words: "even reveal" });
  }
  return nearest(list, start, reach);
}

export function snapped(r, others, reach, mark) {
  const horizontal = others.map((o) => ({ start: o.left, size: o.width, name: o.name }));
  const vertical = others.map((o) => ({ start: o.top, size: o.height, name: o.name }));
  const x = along(r.left, r.width, r.across, horizontal, reach, [], ["left", "right"]);
  const left = x ? x.at : toMark(r.left, mark);
  // The reveal that is now left and right is offered above and below, too.
  const gaps = [left, r.across - left - r.width].filter((g) => g >= 0);
  const y = along(r.top, r.height, r.down, vertical, reach, gaps, ["top", "bottom"]);
  return {
    left, top: y ? y.at : toMark(r.top, mark),
    lines: [x?.line != null && { x: x.line }, y?.line != null && { y: y.line }].filter(Boolean),
    words: [...new Set([x?.words, y?.words].filter(Boolean))],
  };
}

// A side's new size: the edge is drawn to `to`; what was in the middle stays there.
export function resized(r, side, to, mark, middle) {
  const least = mark;
  const size = side === "across" ? r.width : r.height, start = side === "across" ? r.left : r.top;
  const whole = side === "across" ? r.across : r.down;
  if (middle) {
    const half = Math.abs(to.at - whole / 2);
    const now = Math.max(least, toMark(half * 2, mark));
    return { start: (whole - now) / 2, size: now };
  }
  if (to.edge === "end") return { start, size: Math.max(least, toMark(to.at - start, mark)) };
  const end = start + size, from = Math.min(toMark(to.at, mark), end - least);
  return { start: from, size: end - from };
}
