// A photograph or a sketch beneath the card, at true scale, to draw over. It stays in this browser:
// nothing of it is sent or written anywhere.
import { button, el, newId, say } from "./dom.js";
import { boxOf } from "./picture.js";
import { length, otherUnit, toMark, written } from "./measure.js";
import { store } from "./store.js";

export function photoBox(at, setMode) {
  const photo = { url: null, ratio: 1, width: 0, left: 0, top: 0, turn: 0, see: 0.55 };
  const image = el("img", { alt: "", class: "photo" });
  const fields = el("div", { class: "photo-fields", hidden: true });
  const file = newId("photo");
  const lay = () => place(at, photo, image);
  const choose = (event) => {
    const chosen = event.target.files[0];
    if (!chosen) return;
    if (photo.url) URL.revokeObjectURL(photo.url);
    photo.url = URL.createObjectURL(chosen);
    photo.card = at.card.id;
    photo.view = at.view;
    image.onload = () => {
      photo.ratio = image.naturalHeight / image.naturalWidth;
      photo.width ||= at.card.width;
      fields.hidden = false;
      fields.replaceChildren(...controls(at, photo, image, lay, fields, setMode));
      lay();
      say("The photograph lies beneath the card.");
    };
    image.onerror = () => say("This picture cannot be shown. Take a PNG, JPEG or WebP.");
    image.src = photo.url;
    at.beneath.replaceChildren(image);
  };
  document.addEventListener("leafwright-picture", lay);
  return el("details", { class: "photo-box" }, el("summary", {}, "Trace a photograph"),
    el("div", { class: "field" }, el("label", { for: file }, "A photograph or a sketch of a card"),
      el("input", { type: "file", id: file, accept: "image/png,image/jpeg,image/webp", on: { change: choose } })), fields);
}

function place(at, photo, image) {
  if (!photo.url || !at.svg) return;
  const here = photo.card === at.card.id && photo.view === at.view; // it belongs to the side it was laid under
  image.hidden = !here;
  if (!here) { at.picture.style.removeProperty("opacity"); return; }
  const box = boxOf(at.svg), s = at.scale, base = frontOf(at);
  const set = (name, v) => image.style.setProperty(name, v);
  set("width", `${photo.width * s / box.width * 100}%`);
  set("left", `${(base.x + photo.left * s - box.x) / box.width * 100}%`);
  set("top", `${(base.y + photo.top * s - box.y) / box.height * 100}%`);
  set("rotate", `${photo.turn}deg`);
  at.picture.style.setProperty("opacity", String(1 - photo.see));
}

const frontOf = (at) => at.card?.things.find((t) => t.view === at.view)?.carrier ?? { x: 0, y: 0 };

function controls(at, photo, image, lay, root, setMode) {
  const unit = store.project.unit, id = newId("wide"), see = newId("see");
  const reads = el("p", { class: "reads" }, `is ${otherUnit(written(photo.width, unit), unit)}`);
  const width = el("input", { type: "text", id, value: written(photo.width, unit), on: { change: (e) => {
    const mm = length(e.target.value, unit);
    if (mm > 0) { photo.width = mm; reads.textContent = `is ${otherUnit(e.target.value, unit)}`; lay(); }
  } } });
  const shift = (sign, name, dx, dy, turn = 0) => button(sign, () => {
    photo.left += dx * store.project.mark; photo.top += dy * store.project.mark; photo.turn += turn; lay();
  }, { "aria-label": name });
  return [
    el("div", { class: "field" }, el("label", { for: id }, "The whole picture is this wide"), el("div", { class: "control" }, width), reads),
    button("Measure with two taps", () => measure(at, photo, lay, setMode, width), { class: "small" }),
    el("div", { class: "pad", role: "group", "aria-label": "Move the photograph" }, el("span", {}, "Move"),
      shift("←", "Photograph left", -1, 0), shift("→", "Photograph right", 1, 0), shift("↑", "Photograph up", 0, -1), shift("↓", "Photograph down", 0, 1),
      shift("↺", "Turn it left", 0, 0, -0.5), shift("↻", "Turn it right", 0, 0, 0.5)),
    el("div", { class: "field" }, el("label", { for: see }, "See through the card"), el("input", { type: "range", id: see, min: "0", max: "1", step: "0.05",
      value: String(photo.see), on: { input: (e) => { photo.see = Number(e.target.value); lay(); } } })),
    button("Take the photograph away", () => {
      URL.revokeObjectURL(photo.url); photo.url = null; image.remove(); root.hidden = true; at.picture.style.removeProperty("opacity");
    }, { class: "small" }),
  ];
}

// Two taps on what has a known length, then that length: so the photograph gets its true scale.
function measure(at, photo, lay, setMode, width) {
  let first = null;
  setMode(at, "Tap one end of something whose length you know.", (p) => {
    if (!first) { first = p; at.readout.textContent = "Now tap its other end."; return; }
    const now = Math.hypot(p.x - first.x, p.y - first.y) / at.scale;
    at.mode.stop();
    askLength(at, now, (mm) => {
      photo.width *= mm / now;
      width.value = written(photo.width, store.project.unit);
      lay();
    });
  });
}

function askLength(at, now, done) {
  const id = newId("known"), unit = store.project.unit;
  const field = el("input", { type: "text", id, value: written(toMark(now, store.project.mark), unit) });
  const dialog = el("dialog", { class: "ask", "aria-labelledby": `${id}-title` }, el("form", { method: "dialog" },
    el("h2", { id: `${id}-title` }, "How long is it really?"),
    el("div", { class: "field" }, el("label", { for: id }, "Length"), field),
    el("div", { class: "acts" }, el("button", { value: "yes", class: "strong" }, "That long"), el("button", { value: "no", formnovalidate: true }, "Leave it"))));
  dialog.addEventListener("close", () => {
    const mm = length(field.value, unit);
    if (dialog.returnValue === "yes" && mm > 0) done(mm);
    dialog.remove();
    at.stage.focus();
  });
  document.body.append(dialog);
  dialog.showModal();
  field.select();
}
