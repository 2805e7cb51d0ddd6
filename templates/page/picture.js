// Pictures of the program, put into the page: cleaned, their inner names made the page's own, and
// drawn anew only where they changed.
import { words } from "./server.js";
import { newId, svg as svgEl } from "./dom.js";

// Address to { rev, text }: the last few pictures. Of a project that has not changed since, none is
// asked for again; of one that has, the browser asks whether the picture has.
const kept = new Map();
const most = 60;

export async function pictureText(address, rev) {
  const known = kept.get(address);
  if (known?.rev === rev) return known.text;
  const text = await words(address);
  kept.delete(address);
  kept.set(address, { rev, text });
  if (kept.size > most) kept.delete(kept.keys().next().value);
  return text;
}

export const address = (card, view) => `/api/picture/${encodeURIComponent(card)}/${encodeURIComponent(view)}.svg`;

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
export async function show(place, from, rev) {
  const mine = place.asked = `${from} ${rev}`;
  const text = await pictureText(from, rev);
  if (place.asked !== mine) return null;
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

// For pictures that are only looked at: an image, which the browser draws beside the page's own work.
export async function showImage(image, from, rev) {
  const text = await pictureText(from, rev).catch(() => null);
  if (!text || image.shown === text) return;
  image.shown = text;
  if (image.src) URL.revokeObjectURL(image.src);
  image.src = URL.createObjectURL(new Blob([sized(text)], { type: "image/svg+xml" }));
}

// An image has the size that its picture says, which these leave to the page.
const sized = (text) => (/^<svg[^>]*\swidth=/.test(text) ? text
  : text.replace(/<svg([^>]*?)viewBox="([-\d.e]+) ([-\d.e]+) ([\d.e]+) ([\d.e]+)"/, '<svg$1width="$4mm" height="$5mm" viewBox="$2 $3 $4 $5"'));

// A piece as it lies on the card, cut out of a picture that stands in the page.
export function piece(picture, thing) {
  const groups = picture ? [...picture.querySelectorAll(`[data-thing="${CSS.escape(thing.key)}"]`)] : [];
  if (groups.length === 0) return null;
  const pad = 0.6;
  const out = svgEl("svg", { viewBox: [thing.x - pad, thing.y - pad, thing.width + 2 * pad, thing.height + 2 * pad].join(" "),
    "aria-hidden": "true", class: "swatch" });
  for (const group of groups) {
    if (group.parentElement.closest(`[data-thing="${CSS.escape(thing.key)}"]`)) continue;
    // What moves it in the picture moves it here, too.
    const moved = [];
    for (let up = group.parentElement; up !== picture; up = up.parentElement) moved.unshift(up.getAttribute("transform"));
    const copy = svgEl("g", { transform: moved.filter(Boolean).join(" ") || null }, group.cloneNode(true));
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
