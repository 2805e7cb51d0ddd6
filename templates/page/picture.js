// Pictures of the program, put into the page: cleaned, their inner names made the page's own, and
// drawn anew only where they changed.
import { words } from "./server.js";
import { newId, svg as svgEl } from "./dom.js";

const kept = new Map(); // address to text: the last few pictures
const most = 40;

export async function pictureText(address) {
  if (kept.has(address)) return kept.get(address);
  const text = await words(address);
  kept.set(address, text);
  if (kept.size > most) kept.delete(kept.keys().next().value);
  return text;
}

export const address = (card, view, rev) =>
  `/api/picture/${encodeURIComponent(card)}/${encodeURIComponent(view)}.svg?rev=${encodeURIComponent(rev)}`;

const allowed = new Set(["svg", "g", "path", "rect", "circle", "ellipse", "line", "polyline", "polygon", "use", "defs",
  "clippath", "text", "tspan", "image", "title", "desc", "lineargradient", "radialgradient", "stop", "mask", "pattern", "symbol", "a"]);

// No script, no handler, no address outside the picture comes in with it.
function clean(root) {
  for (const node of [...root.querySelectorAll("*")]) {
    if (!allowed.has(node.localName.toLowerCase())) { node.remove(); continue; }
    if (node.localName === "a") { node.replaceWith(...node.childNodes); continue; }
    for (const { name, value } of [...node.attributes]) {
      const link = name === "href" || name.endsWith(":href");
      if (/^on/i.test(name) || (link && !/^(#|data:image\/(png|jpeg);)/.test(value)) || name === "style") node.removeAttribute(name);
    }
  }
}

// Inner names get a stem of their own, for several pictures stand in one page.
const own = (text, stem) => text
  .replace(/\bid="([^"]+)"/g, `id="${stem}$1"`)
  .replace(/(href=")#/g, `$1#${stem}`)
  .replace(/url\(#/g, `url(#${stem}`);

export function drawn(text) {
  const root = new DOMParser().parseFromString(own(text, newId("p") + "-"), "image/svg+xml").documentElement;
  if (root.localName !== "svg") return null;
  clean(root);
  root.removeAttribute("width");
  root.removeAttribute("height");
  const title = root.querySelector(":scope > title"), about = root.querySelector(":scope > desc");
  root.setAttribute("role", "img");
  root.setAttribute("aria-label", [title?.textContent, about?.textContent].filter(Boolean).join(". "));
  title?.remove(); // it would come up as a tip over the whole card
  about?.remove();
  return document.importNode(root, true);
}

// Puts a picture in `place`, unless the very same stands there. Answers the svg, or null when another
// was asked for meanwhile.
export async function show(place, from) {
  place.asked = from;
  const text = await pictureText(from);
  if (place.asked !== from) return null;
  const standing = place.querySelector(":scope > svg");
  if (place.shown === text && standing) return standing;
  place.shown = text;
  const picture = drawn(text);
  if (!picture) return null;
  place.replaceChildren(picture);
  return picture;
}

export const scaleOf = (picture) => Number(picture.getAttribute("data-scale")) || 1;
export const boxOf = (picture) => picture.viewBox.baseVal;

// A piece as it lies on the card, cut out of a picture that stands in the page.
export function piece(picture, thing) {
  const groups = picture ? [...picture.querySelectorAll(`[data-thing="${CSS.escape(thing.key)}"]`)] : [];
  if (groups.length === 0) return null;
  const pad = 0.6;
  const out = svgEl("svg", { viewBox: [thing.x - pad, thing.y - pad, thing.width + 2 * pad, thing.height + 2 * pad].join(" "),
    "aria-hidden": "true", class: "swatch" });
  for (const group of groups) {
    if (group.parentElement.closest(`[data-thing="${CSS.escape(thing.key)}"]`)) continue;
    const copy = group.cloneNode(true);
    for (const node of [copy, ...copy.querySelectorAll("[data-thing]")]) node.removeAttribute("data-thing");
    out.append(copy);
  }
  return out;
}

// Lights a piece wherever it is shown: card, tray, steps, cut diagram.
let lit = null;
export function light(key) {
  if (lit === key) return;
  lit = key;
  relight(document);
}
export function relight(root) {
  for (const node of root.querySelectorAll("[data-thing].lit")) if (node.dataset.thing !== lit) node.classList.remove("lit");
  if (lit) for (const node of root.querySelectorAll(`[data-thing="${CSS.escape(lit)}"]`)) node.classList.add("lit");
}
export const lights = (key) => ({
  pointerenter: () => light(key), pointerleave: () => light(null), focus: () => light(key), blur: () => light(null),
});
