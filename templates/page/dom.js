// Makes elements. Words go in as text, never as markup, whatever a project is called.

const svgNames = "http://www.w3.org/2000/svg";

function put(node, name, value) {
  if (value === undefined || value === null || value === false) return;
  if (name === "on") for (const [type, act] of Object.entries(value)) node.addEventListener(type, act);
  else if (name === "style") for (const [key, to] of Object.entries(value)) node.style.setProperty(key, to);
  else if (name === "value" && "value" in node) node.value = value;
  else node.setAttribute(name, value === true ? "" : value);
}

function fill(node, props, children) {
  for (const [name, value] of Object.entries(props ?? {})) if (name !== "value") put(node, name, value);
  node.append(...children.flat(9).filter((c) => c !== null && c !== undefined && c !== false && c !== ""));
  if (props?.value !== undefined) put(node, "value", props.value); // a select needs its choices first
  return node;
}

export const el = (tag, props, ...children) => fill(document.createElement(tag), props, children);
export const svg = (tag, props, ...children) => fill(document.createElementNS(svgNames, tag), props, children);

export const button = (words, act, { on, ...props } = {}) =>
  el("button", { type: "button", ...props, on: { ...on, click: act } }, words);

// Draws a region anew only when what it shows is another: `made` is compared with what stands there.
// Focus, caret and words that are being typed stay where they were.
export function region(root, made, build) {
  const mark = typeof made === "string" ? made : JSON.stringify(made);
  if (root.madeOf === mark) return false;
  root.madeOf = mark;
  const kept = keepFocus(root);
  root.replaceChildren(...[build()].flat(9).filter(Boolean));
  kept();
  return true;
}

// What stands in a region is of no use for what comes next.
export const forget = (root) => { root.madeOf = undefined; };

function keepFocus(root) {
  const was = document.activeElement;
  if (!was || was === root || !root.contains(was)) return () => {};
  const name = was.dataset.focus;
  const typed = was.dataset.typed === "yes" ? was.value : undefined;
  const caret = "selectionStart" in was ? safeCaret(was) : null;
  return () => {
    const now = name ? root.querySelector(`[data-focus="${CSS.escape(name)}"]`) : null;
    if (!now) { fallback(root); return; }
    if (typed !== undefined) { now.value = typed; now.dataset.typed = "yes"; }
    now.focus({ preventScroll: true });
    if (caret && now.setSelectionRange) try { now.setSelectionRange(...caret); } catch { /* a number field has no caret */ }
  };
}

// What had the focus is gone: it goes to the heading of its region, not to the top of the page.
function fallback(root) {
  const next = root.querySelector("h2, h1");
  if (!next) return;
  next.tabIndex = -1;
  next.focus({ preventScroll: true });
}

function safeCaret(field) {
  try { return field.selectionStart === null ? null : [field.selectionStart, field.selectionEnd]; } catch { return null; }
}

// While something is carried, nothing is drawn anew under the hand.
export const hands = { busy: false };

let counted = 0;
export const newId = (stem) => `${stem}-${++counted}`;

export function say(words) { speak("say", words); }
export function warn(words) {
  speak("warn", words);
  document.dispatchEvent(new CustomEvent("leafwright-warning", { detail: words }));
}

function speak(id, words) {
  const place = document.getElementById(id);
  place.textContent = "";
  setTimeout(() => { place.textContent = words; }, 30); // the same words twice are said twice
}
