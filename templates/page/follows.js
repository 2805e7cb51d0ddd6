// What follows from a change, old and new: while a value is being written, and after it was.
import { el, region } from "./dom.js";
import { nice } from "./measure.js";
import { severityWords } from "./words.js";

let wished = null;
export function showFollows(rows, notes = []) {
  wished = rows === null ? null : { rows, notes };
  drawFollows();
}

let lastRows = [];
export function drawFollows(last) {
  if (last) lastRows = last;
  const root = document.getElementById("follows");
  if (!root) return;
  const rows = wished ? wished.rows : lastRows, notes = wished?.notes ?? [];
  root.classList.toggle("wish", Boolean(wished));
  region(root, [Boolean(wished), rows, notes], () => {
    if (!wished && rows.length === 0) return [];
    const heading = wished ? "What would follow" : "What followed";
    return [el("h3", {}, heading),
      rows.length === 0 && notes.length === 0 && el("p", { class: "quiet" }, "Nothing else changes."),
      rows.length > 0 && el("dl", {}, rows.map(row)),
      notes.map((n) => el("p", { class: `note ${n.severity}` }, el("strong", {}, `${severityWords(n.severity)}: `), n.found)),
      wished && el("p", { class: "quiet" }, "Enter keeps it, Escape leaves all as it was.")];
  });
}

const row = ({ label, before, after, harm }) => el("div", { class: harm ?? "" }, el("dt", {}, label),
  el("dd", {}, el("span", { class: "was" }, nice(before) || "none"), " → ", el("strong", {}, nice(after) || "none"),
    harm && el("span", { class: "harm" }, harm === "worse" ? " ▲ worse" : " ▼ better")));
