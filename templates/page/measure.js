// Lengths as people write them: 4 1/4, 4-1/4, 4¼, 17/4, 4.25, 108 mm, 10.5 cm, 3/8", and sums of them.
// Only for showing and stepping; the program reads the file's words itself.

const inch = 25.4;
const glyphs = { "¼": "1/4", "½": "1/2", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8", "⅓": "1/3", "⅔": "2/3" };
const units = { mm: 1, millimeter: 1, millimetre: 1, millimeters: 1, millimetres: 1, cm: 10, in: inch, inch: inch, inches: inch, '"': inch };
const numberForm = /^(?:(\d+)(?:\s+|-)(\d+)\/(\d+)|(\d+)\/(\d+)|(\d*\.?\d+))(?:\s*(millimet(?:er|re)s?|mm|cm|inches|inch|in|"))?/;

const spread = (text) => text.replace(/(\d?)([¼½¾⅛⅜⅝⅞⅓⅔])/g, (_, whole, glyph) => (whole ? whole + " " : "") + glyphs[glyph]);

// A number at the start of `text`: its value in mm (bare numbers in `unit`), and how long it is.
function numberAt(text, unit) {
  const m = numberForm.exec(text);
  if (!m) return null;
  const size = m[1] !== undefined ? Number(m[1]) + m[2] / m[3] : m[4] !== undefined ? m[4] / m[5] : Number(m[6]);
  const by = m[7] ? units[m[7]] : null;
  return { size, by, mm: size * (by ?? (unit === "mm" ? 1 : inch)), length: m[0].length, unit: m[7] };
}

// A sum or product of lengths, in mm; NaN when a name stands in it or it cannot be read.
export function length(words, unit) {
  let rest = spread(String(words).trim()).replaceAll("−", "-").replaceAll("×", "*").replaceAll("÷", "/");
  const eat = (form) => { const m = form.exec(rest); if (!m) return null; rest = rest.slice(m[0].length).trimStart(); return m[0].trim(); };
  const factor = () => {
    if (eat(/^\(/)) { const inner = sum(); return eat(/^\)/) ? inner : NaN; }
    if (eat(/^-/)) { const f = factor(); return { mm: -f.mm, plain: -f.plain }; }
    const n = numberAt(rest, unit);
    if (!n) return { mm: NaN, plain: NaN };
    rest = rest.slice(n.length).trimStart();
    return { mm: n.mm, plain: n.by ? NaN : n.size };
  };
  const product = () => {
    let left = factor();
    for (let sign = eat(/^[*/]/); sign; sign = eat(/^[*/]/)) {
      const right = factor();
      if (sign === "/") left = { mm: left.mm / right.plain, plain: left.plain / right.plain };
      else left = Number.isNaN(right.plain) ? { mm: right.mm * left.plain, plain: NaN } : { mm: left.mm * right.plain, plain: left.plain * right.plain };
    }
    return left;
  };
  const sum = () => {
    let left = product();
    for (let sign = eat(/^[+-]/); sign; sign = eat(/^[+-]/)) {
      const right = product(), by = sign === "+" ? 1 : -1;
      left = { mm: left.mm + by * right.mm, plain: left.plain + by * right.plain };
    }
    return left;
  };
  const all = sum();
  return rest === "" ? all.mm : NaN;
}

const gcd = (a, b) => (b === 0 ? a : gcd(b, a % b));
// Inches as a fraction, to the nearest 1/64; a rest that is no fraction stays a decimal.
function inches(mm) {
  const sign = mm < 0 ? "-" : "";
  const parts = Math.round(Math.abs(mm) / inch * 64);
  if (Math.abs(Math.abs(mm) / inch * 64 - parts) > 0.02) return sign + String(Math.round(Math.abs(mm) / inch * 1000) / 1000);
  const whole = Math.floor(parts / 64), rest = parts % 64;
  if (rest === 0) return sign + String(whole);
  const g = gcd(rest, 64);
  return sign + (whole ? `${whole} ` : "") + `${rest / g}/${64 / g}`;
}
const millimetres = (mm) => String(Math.round(mm * 100) / 100);

// As it is written in the file: a bare number of the project's unit.
export const written = (mm, unit) => (unit === "mm" ? millimetres(mm) : inches(mm));
// Fractions as one sign where there is one: 3 1/4 is 3¼.
const signs = Object.fromEntries(Object.entries(glyphs).map(([sign, plain]) => [plain, sign]));
export const nice = (text) => String(text ?? "").replace(/(?:(\d+) )?\b(\d+\/\d+)\b/g, (all, whole, part) =>
  (signs[part] ? `${whole ?? ""}${signs[part]}` : all)).replace(/ x (?=\d)/g, " × ");
// As it is told: with its unit, rounded to the ruler's mark.
export const told = (mm, project) =>
  project.unit === "mm" ? `${Math.round(mm * 10) / 10} mm` : nice(`${inches(toMark(mm, project.mark))} in`);
export const toMark = (mm, mark) => Math.round(mm / mark) * mark;

// The same in the other unit: of "3 1/4 x 3" and of "3/8 from top, centre" the lengths in turn.
export function otherUnit(words, unit) {
  const last = /\d\s*(mm|cm|in|inch|inches|"|millimet(?:er|re)s?)\s*$/.exec(words)?.[1]; // one unit at the end serves both
  const own = last ? (units[last] === inch ? "inch" : "mm") : unit, tenfold = last === "cm" ? 10 : 1;
  const sizes = String(words).split(/\s*(?:,|[x×](?=\s*[\d¼½¾⅛⅜⅝⅞.]))\s*/)
    .map((part) => part.replace(/\s+(from|up|down|left|right)\b.*$/, ""))
    .map((part) => (/[a-z"]\s*$/i.test(part) ? length(part, unit) : length(part, own) * tenfold)).filter((mm) => !Number.isNaN(mm));
  if (sizes.length === 0) return "";
  const text = sizes.map((mm) => (unit === "mm" ? inches(toMark(mm, inch / 32)) : String(Math.round(mm * 10) / 10)));
  return `${text.join(" × ")} ${unit === "mm" ? "in" : "mm"}`;
}

// The words with the length at `caret` made `by` mm larger; null when no length stands there.
export function stepped(words, caret, by, unit) {
  const text = spread(words);
  const at = Math.min(caret, text.length);
  let found = null;
  for (let i = 0; i < text.length; ++i) {
    if (!/[\d.]/.test(text[i]) || (i > 0 && /[\w./]/.test(text[i - 1]))) continue;
    const n = numberAt(text.slice(i), unit);
    if (!n) continue;
    if (!found || i <= at) found = { ...n, from: i };
    i += n.length - 1;
  }
  if (!found) return null;
  const mm = Math.max(0, found.mm + by);
  const per = found.by ?? (unit === "mm" ? 1 : inch);
  const now = (per === inch ? inches(mm) : millimetres(mm / per)) + (found.unit ? ` ${found.unit}` : "");
  return { words: text.slice(0, found.from) + now + text.slice(found.from + found.length), caret: found.from + now.length };
}
