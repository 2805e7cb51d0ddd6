// The page's own reckoning, without a browser: `node --test`. What is written in the file is read by the
// program; these only show, step and place.
import assert from "node:assert/strict";
import { test } from "node:test";
import { length, nice, otherUnit, stepped, told, toMark, written } from "../../templates/page/measure.js";
import { atWords, parts, placesMoved, reveals } from "../../templates/page/place.js";
import { resized, snapped } from "../../templates/page/snap.js";

const inch = 25.4; // by definition, since 1959
const near = (a, b) => assert.ok(Math.abs(a - b) < 1e-6, `${a} is not ${b}`);
const project = { unit: "inch", mark: inch / 16 };

test("lengths are read as people write them", () => {
  for (const [words, inches] of [["4 1/4", 4.25], ["4-1/4", 4.25], ["4¼", 4.25], ["17/4", 4.25], ["4.25", 4.25], ["3/8\"", 0.375],
    ["(4 - 1/4) / 2", 1.875], ["2 * 1 1/8", 2.25], ["1 + 25.4 mm", 2]]) near(length(words, "inch"), inches * inch);
  near(length("10.5 cm", "inch"), 105);
  near(length("108", "mm"), 108);
});

test("what is no length is none", () => {
  for (const words of ["", "mat.width - 1/4", "wide", "4 1/4 x 5", "2 in * 3 in"]) assert.ok(Number.isNaN(length(words, "inch")), words);
});

test("lengths are written as the file has them", () => {
  assert.equal(written(4.25 * inch, "inch"), "4 1/4");
  assert.equal(written(inch / 64, "inch"), "1/64");
  assert.equal(written(108, "mm"), "108");
  assert.equal(told(82.55, project), "3¼ in");
  assert.equal(nice("5 x 13/16 in, 1/8"), "5 × 13/16 in, ⅛");
});

test("the other unit is told, of a size and of a place", () => {
  assert.equal(otherUnit("4 1/4 x 5 1/2", "inch"), "108 × 139.7 mm");
  assert.equal(otherUnit("80 x 80 mm", "inch"), "80 × 80 mm");
  assert.equal(otherUnit("3/8 from top, centre", "inch"), "9.5 mm");
  assert.equal(otherUnit("mat.width", "inch"), "");
});

test("an arrow key changes the length at the caret, and no other", () => {
  assert.deepEqual(stepped("3 1/4 x 3", 0, inch / 16, "inch"), { words: "3 5/16 x 3", caret: 6 });
  assert.deepEqual(stepped("3 1/4 x 3", 9, -inch / 16, "inch"), { words: "3 1/4 x 2 15/16", caret: 15 });
  assert.deepEqual(stepped("centre, 3/8 from top", 20, inch / 16, "inch").words, "centre, 7/16 from top");
  assert.deepEqual(stepped("108 mm", 0, 0.5, "inch").words, "108.5 mm");
  assert.equal(stepped("centre", 2, 1, "inch"), null);
});

const r = { left: inch, top: inch / 2, width: inch, height: inch, across: 3 * inch, down: 4 * inch };

test("a place is written as it was: from the same edges, the middle unsaid", () => {
  assert.equal(atWords(r, "centre, 3/8 from top", "inch"), "centre, 1/2 from top");
  assert.equal(atWords(r, "1 from bottom", "inch"), "centre, 2 1/2 from bottom");
  assert.equal(atWords({ ...r, left: 1.5 * inch }, "1/4 from right, 1 from top", "inch"), "1/2 from right, 1/2 from top");
  assert.equal(atWords({ ...r, left: 0 }, "", "inch"), "left, 1/2 from top");
  assert.equal(atWords({ ...r, top: 1.5 * inch }, "", "inch"), "centre");
  assert.equal(atWords(r, "row, 1 from top", "inch"), "row, 1/2 from top");
  assert.equal(atWords(r, "row, 1/4 from left, 1 from top", "inch"), "row, 1/4 from left, 1/2 from top");
  assert.equal(atWords(r, "4 1/4 from top", "inch", { along: "width" }), "1 from top");
});

test("a place is taken apart", () => {
  assert.deepEqual(parts("top left").down, { edge: "top", said: "top left", flush: true });
  assert.deepEqual(parts("centre, over ribbon").rest, ["over ribbon"]);
  assert.equal(parts("1/8 up").down.edge, "centre");
});

test("copies keep their distances", () => {
  assert.deepEqual(placesMoved("3/8, 1/2; 1 1/4, 2", inch / 8, 0, "inch"), ["1/2, 1/2", "1 3/8, 2"]);
  assert.deepEqual(placesMoved("half(mat.width), 1", 1, 1, "inch"), [null]);
});

test("reveals are told as people say them", () => {
  const even = { left: 3, top: 3, width: 10, height: 10, across: 16, down: 16 };
  assert.equal(reveals(even, String), "3 shows on every side");
  assert.equal(reveals({ ...even, top: 1, height: 14 }, String), "3 left and right; 1 above and below");
  assert.equal(reveals({ ...even, down: 20 }, String), "3 left and right; 3 above, 7 below");
});

test("a moved piece rests in the middle, level with others, at an even reveal, else at a mark", () => {
  const mark = 1, reach = 2, box = { left: 0, top: 0, width: 20, height: 20, across: 100, down: 200 };
  assert.equal(snapped({ ...box, left: 41 }, [], reach, mark).left, 40);
  assert.equal(snapped({ ...box, left: 10, top: 11.5 }, [], reach, mark).top, 10); // as much as left of it
  assert.equal(snapped({ ...box, left: 60.5, top: 50 }, [{ left: 61, top: 0, width: 5, height: 5, name: "mat" }], reach, mark).left, 61);
  assert.equal(snapped({ ...box, left: 40.2, top: 50 }, [{ left: 41, top: 0, width: 5, height: 5, name: "mat" }], reach, mark).left, 40); // the nearer
  assert.equal(snapped({ ...box, left: 23.4, top: 50 }, [], reach, mark).left, toMark(23.4, mark));
});

test("a drawn edge keeps the opposite one, or the middle", () => {
  const box = { left: 10, top: 0, width: 20, height: 20, across: 100, down: 100 };
  assert.deepEqual(resized(box, "across", { edge: "end", at: 40.3 }, 1, false), { start: 10, size: 30 });
  assert.deepEqual(resized(box, "across", { edge: "start", at: 4.6 }, 1, false), { start: 5, size: 25 });
  assert.deepEqual(resized({ ...box, left: 40 }, "across", { edge: "end", at: 65 }, 1, true), { start: 35, size: 30 });
});
