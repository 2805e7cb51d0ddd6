// Cut diagrams: where a piece is cut.
import { el, region } from "./dom.js";
import { drawn as drawnPicture, pictureText, relight } from "./picture.js";
import { store } from "./store.js";

// A little later than the picture: that is what she looks at.
let later;
export function drawSheets(root, key) {
  clearTimeout(later);
  later = setTimeout(() => root.isConnected && ofPiece(root, key), 250);
}

async function ofPiece(root, key) {
  const found = store.project.sheets.map((sheet, n) => ({ ...sheet, n })).filter((s) => s.pieces?.includes(key)).slice(0, 2);
  await drawDiagrams(root, found, "Where it is cut");
}

// Each is shown as soon as it is drawn.
export async function drawDiagrams(root, sheets, heading) {
  region(root, [heading, sheets.map((s) => [s.n, s.paper, s.label])], () => (sheets.length === 0 ? [] : [
    el("h3", {}, heading),
    el("div", { class: "diagrams" }, sheets.map((s) => el("figure", {}, el("div", { "data-sheet": s.n }), el("figcaption", {}, s.label || s.paper)))),
  ]));
  for (const s of sheets) {
    const text = await pictureText(`/api/sheet/${s.n}.svg`, store.project.rev).catch(() => null);
    const place = root.querySelector(`[data-sheet="${s.n}"]`);
    if (!place?.isConnected) return;
    if (text && region(place, text, () => drawnPicture(text))) relight(place);
  }
}
