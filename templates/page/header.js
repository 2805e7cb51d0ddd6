// The head of the page: what class it is, whether it is kept, undo, redo, keep; and the ways in.
import { button, el, region, say } from "./dom.js";
import { post } from "./server.js";
import { redo, refused, store, take, undo } from "./store.js";
import { pages, to } from "./router.js";

export function drawHeader(root, route) {
  const p = store.project;
  const bad = p.findings.filter((f) => f.severity === "error").length, notes = p.findings.length;
  region(root, [p.title, p.maker, p.file, p.unsaved, p.stale, p.undo, p.redo, route.page, bad, notes, p.orders], () => [
    el("div", { class: "name" }, el("a", { href: "#cards", class: "title" }, p.title), el("span", { class: "quiet" }, [p.maker, p.file].filter(Boolean).join(" · "))),
    el("div", { class: "acts", role: "group", "aria-label": "Changes" },
      button("Undo", undo, { disabled: !p.undo, title: p.undo ? `Take back: ${p.undo}` : null, "data-focus": "undo", "aria-keyshortcuts": "Control+Z" }),
      button("Redo", redo, { disabled: !p.redo, title: p.redo ? `Do again: ${p.redo}` : null, "data-focus": "redo", "aria-keyshortcuts": "Control+Shift+Z" }),
      button(p.unsaved ? "Save" : "Saved", () => save(), { class: p.unsaved ? "strong" : "", "aria-disabled": p.unsaved ? null : "true", "data-focus": "save", "aria-keyshortcuts": "Control+S" })),
    p.stale && el("p", { class: "note error stale" }, "Something in the project cannot be read, so the pictures show it as it was before. ",
      el("a", { href: "#notes" }, "See the notes"), ", or undo."),
    el("nav", { class: "ways", "aria-label": "Parts of the work" }, pages.map((page) =>
      el("a", { href: to(page.id), "aria-current": page.id === route.page || (page.id === "cards" && route.page === "card") ? "page" : null, "data-focus": `way:${page.id}` },
        page.words, page.id === "notes" && notes > 0 && el("span", { class: bad ? "badge bad" : "badge" }, String(notes))))),
  ]);
}

// Saving tells of a change elsewhere that does not go together with ours, so it is also how to ask.
export async function save({ ask } = {}) {
  if (!store.project.unsaved && !ask) return;
  try {
    const answer = await post("/api/save", { rev: store.project.rev });
    take(answer.project);
    say(`${store.project.file} is saved.`);
  } catch (refusal) {
    if (refusal.status === 409 && refusal.answer?.theirs) sideBySide(refusal.answer);
    else if (!ask) refused(refusal); // asked only whether there is something to decide
  }
}

// The file was changed elsewhere: what changed there, and what to keep.
function sideBySide(answer) {
  document.querySelector("dialog.conflict")?.remove();
  const choose = async (take_) => {
    dialog.close();
    try {
      const done = await post("/api/resolve", { take: take_ });
      take(done.project);
      say("Done. Undo takes it back.");
    } catch (refusal) { refused(refusal); }
  };
  const dialog = el("dialog", { class: "conflict", "aria-labelledby": "conflict-title" },
    el("h2", { id: "conflict-title" }, `${store.project.file} was changed elsewhere`),
    el("p", {}, answer.error),
    el("div", { class: "wide", tabindex: "0", role: "region", "aria-label": "What was changed elsewhere" }, el("table", {},
      el("thead", {}, el("tr", {}, ["Where", "Before", "There now"].map((w) => el("th", { scope: "col" }, w)))),
      el("tbody", {}, (answer.theirs ?? []).map((row) => el("tr", {}, el("th", { scope: "row" }, row.where), el("td", {}, row.before), el("td", {}, row.after)))))),
    el("div", { class: "acts" },
      answer.merged && button("Keep both", () => choose("merge"), { class: "strong" }),
      button("Keep mine only", () => choose("mine")), button("Take theirs only", () => choose("theirs")),
      button("Decide later", () => dialog.close())));
  dialog.addEventListener("close", () => { dialog.remove(); document.querySelector('[data-focus="save"]')?.focus(); });
  document.body.append(dialog);
  dialog.showModal();
}
