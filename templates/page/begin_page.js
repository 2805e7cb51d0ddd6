// An empty folder: a sample to take apart, or a new class.
import { button, el, newId, region } from "./dom.js";
import { get, post } from "./server.js";
import { load, refused, take } from "./store.js";

export async function drawBegin(root) {
  let start;
  try { start = await get("/api/start"); } catch (refusal) { refused(refusal); return; }
  region(root, ["begin", start], () => [
    el("h1", {}, "An empty table"),
    el("p", { class: "lead" }, `There is no project in ${start.folder} yet. Begin with a sample to take apart, or with a class of your own.`),
    el("div", { class: "beginnings" }, newClass(start), samples(start)),
  ]);
}

async function begin(body) {
  try {
    const answer = await post("/api/start", body);
    if (answer.project?.tags) take(answer.project); else await load();
    location.hash = "#cards";
    document.dispatchEvent(new CustomEvent("leafwright-begun"));
  } catch (refusal) { refused(refusal); }
}

const samples = (start) => el("section", { "aria-labelledby": "samples-title" }, el("h2", { id: "samples-title" }, "A sample to take apart"),
  el("ul", { class: "documents" }, start.samples.map((s) => el("li", {}, el("h3", {}, s.title), el("p", { class: "quiet" }, s.words),
    button("Begin with it", () => begin({ sample: s.id }), { "aria-label": `Begin with it: ${s.title}`, "data-focus": `sample:${s.id}` })))));

function newClass(start) {
  const ids = Object.fromEntries(["title", "cards", "form", "size", "papers", "paper"].map((n) => [n, newId(n)]));
  const field = (name, label, control) => el("div", { class: "field" }, el("label", { for: ids[name] }, label), control);
  const sizes = el("datalist", { id: `${ids.size}-list` });
  const fill = () => sizes.replaceChildren(...(start.forms.find((f) => f.id === form.value)?.sizes ?? []).map((s) => el("option", { value: s })));
  const form = el("select", { id: ids.form, on: { change: fill } }, start.forms.map((f) => el("option", { value: f.id }, f.name)));
  const papers = el("select", { id: ids.papers }, [1, 2, 3, 4, 5, 6].map((n) => el("option", { value: String(n) }, String(n))));
  papers.value = "3";
  const of = (name) => document.getElementById(ids[name]).value;
  const made = el("form", { class: "new-class", "aria-labelledby": "new-title", on: { submit: (e) => {
    e.preventDefault();
    begin({ new: { title: of("title"), cards: Number(of("cards")), form: of("form"), size: of("size"), papers: Number(of("papers")), paper: of("paper") } });
  } } },
  el("h2", { id: "new-title" }, "A new class"),
  field("title", "What is it called?", el("input", { type: "text", id: ids.title, required: true, value: "My first class" })),
  field("cards", "How many cards?", el("input", { type: "number", id: ids.cards, min: "1", max: "24", value: "3", required: true })),
  field("form", "How do they fold?", form),
  field("size", "What size, closed?", [el("input", { type: "text", id: ids.size, list: `${ids.size}-list`, value: start.forms[0]?.sizes[0] ?? "A2", required: true }), sizes]),
  field("papers", "How many papers?", papers),
  field("paper", "What do you print on?", el("select", { id: ids.paper }, start.papers.map((p) => el("option", { value: p }, p === "letter" ? "US letter" : p.toUpperCase())))),
  el("button", { type: "submit", class: "strong" }, "Lay it out"));
  fill();
  return el("section", {}, made);
}
