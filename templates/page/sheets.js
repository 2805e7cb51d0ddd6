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

export async function drawDiagrams(root, sheets, heading) {
  if (!root) return;
  const texts = await Promise.all(sheets.map((s) => pictureText(`/api/sheet/${s.n}.svg`, store.project.rev).catch(() => null)));
  if (!root.isConnected) return;
  region(root, [heading, sheets.map((s) => [s.n, s.paper, s.label]), texts], () => {
    if (sheets.length === 0) return [];
    return [el("h3", {}, heading), el("div", { class: "diagrams" }, sheets.map((s, i) => texts[i] && el("figure", {},
      drawnPicture(texts[i]), el("figcaption", {}, [s.paper, s.label].filter(Boolean).join(": ")))))];
  });
  relight(root);
}
