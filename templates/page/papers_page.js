// Making the papers: each document, its progress, its pages.
import { button, el, newId, region, say } from "./dom.js";
import { get, post } from "./server.js";
import { refused, store, value } from "./store.js";
import { counted, documentWords, elementName, sentence, spelt } from "./words.js";
import { drawDiagrams } from "./sheets.js";

const jobs = new Map(); // document's name to its job
const options = { paper: "", tier: "", grey: false };
let looking = null; // the file that is shown

// Parts of their own, so that the pages being looked at stay while other papers are made.
export function drawPapers(root) {
  region(root, "papers", () => [
    el("h1", {}, "Papers"),
    el("p", { class: "lead" }, "Everything you print, send or read aloud. Make one, look at its pages, then print it."),
    ...["choices", "made", "pages"].map((part) => el("div", { "data-part": part })),
    el("details", { class: "cutting", on: { toggle: () => drawCutting(root) } },
      el("summary", { "data-focus": "papers:sheets" }, "How the sheets are cut"), el("div", { "data-part": "cutting" })),
  ]);
  const part = (name) => root.querySelector(`[data-part="${name}"]`);
  region(part("choices"), store.project.elements.children.filter((c) => c.tag === "tier").map((c) => c.attributes), choices);
  region(part("made"), [store.project.documents, [...jobs]], () =>
    el("ul", { class: "documents" }, store.project.documents.map((d) => documentItem(root, d))));
  region(part("pages"), looking, () => looking && preview(root));
  drawCutting(root);
}

function drawCutting(root) {
  if (!root.querySelector("details.cutting")?.open) return;
  drawDiagrams(root.querySelector('[data-part="cutting"]'), store.project.sheets.map((s, n) => ({ ...s, n })), "Cut diagrams");
}

function choices() {
  const tiers = store.project.elements.children.filter((c) => c.tag === "tier");
  const pick = (name, label, list) => {
    const id = newId("choice");
    return el("div", { class: "field" }, el("label", { for: id }, label), el("select", { id, value: options[name], "data-focus": `papers:${name}`,
      on: { change: (e) => { options[name] = e.target.value; } } }, list.map(([v, words]) => el("option", { value: v }, words))));
  };
  const grey = newId("grey");
  return el("div", { class: "line" }, pick("paper", "Paper", [["", "as the class says"], ["letter", "US letter"], ["a4", "A4"]]),
    pick("tier", "For buyers of", [["", "all options"], ...tiers.map((t) => [value(t, "id"), elementName(t)])]),
    el("div", { class: "field tick" }, el("input", { type: "checkbox", id: grey, checked: options.grey, "data-focus": "papers:grey",
      on: { change: (e) => { options.grey = e.target.checked; } } }), el("label", { for: grey }, spelt("In gray, for a black printer"))));
}

function documentItem(root, d) {
  const job = jobs.get(d.name), busy = job && ["waiting", "working"].includes(job.state);
  return el("li", {}, el("h2", {}, documentWords(d)), el("p", { class: "quiet" }, sentence(spelt(d.about))),
    busy ? progress(root, d, job) : button(job?.state === "done" ? "Make it again" : "Make it", () => make(root, d), { class: "strong", "aria-label": `${job?.state === "done" ? "Make it again" : "Make it"}: ${documentWords(d)}`, "data-focus": `make:${d.name}` }),
    job?.state === "failed" && el("p", { class: "note error" }, job.words || "It could not be made. See the notes."),
    job?.state === "cancelled" && el("p", { class: "quiet" }, "Cancelled: nothing was written."),
    job?.state === "done" && el("ul", { class: "files" }, job.files.map((f) => el("li", {},
      button(`Look at ${f.name}`, () => { looking = f; drawPapers(root); document.getElementById("pages")?.scrollIntoView({ block: "nearest" }); }, { class: "small", "data-focus": `look:${f.id}` }), " ",
      el("a", { href: `/api/file/${encodeURIComponent(f.id)}`, target: "_blank", rel: "noopener", "aria-label": `Open by itself: ${f.name}` }, "Open by itself"), " ", el("span", { class: "quiet" }, size(f.bytes)))),
    el("li", {}, button("Open the folder", () => post(`/api/job/${job.id}/folder`).then(() => say("The folder is open.")).catch(refused), { class: "small", "data-focus": `folder:${d.name}` }))));
}

const size = (bytes) => (bytes > 1e6 ? `${Math.round(bytes / 1e5) / 10} MB` : `${Math.max(1, Math.round(bytes / 1000))} kB`);

function progress(root, d, job) {
  const id = newId("progress");
  return el("div", { class: "progress" }, el("label", { for: id }, job.words || "Waiting its turn"),
    el("progress", { id, max: String(job.of || 1), ...(job.of ? { value: String(job.done) } : {}) }),
    job.of > 0 && el("span", { class: "quiet" }, `${job.done} of ${job.of}`),
    button("Cancel", () => post(`/api/job/${job.id}/cancel`).catch(refused), { class: "small", "aria-label": `Cancel: ${documentWords(d)}`, "data-focus": `make:${d.name}` }));
}

async function make(root, d) {
  const chosen = Object.fromEntries(Object.entries(options).filter(([, v]) => v));
  try {
    const { job } = await post("/api/make", { document: d.name, options: chosen });
    jobs.set(d.name, { id: job, state: "waiting", done: 0, of: 0, words: "", files: [] });
    drawPapers(root);
    watch(root, d, job);
  } catch (refusal) { refused(refusal); }
}

async function watch(root, d, id) {
  for (let pause = 150; ; pause = Math.min(1000, pause * 1.3)) {
    await new Promise((done) => setTimeout(done, pause));
    let state;
    try { state = await get(`/api/job/${encodeURIComponent(id)}`); } catch (refusal) { refused(refusal); state = { state: "failed", words: refusal.message, files: [], done: 0, of: 0 }; }
    if (jobs.get(d.name)?.id !== id) return;
    jobs.set(d.name, { ...state, id });
    if (root.isConnected && location.hash.startsWith("#papers")) drawPapers(root);
    if (state.state === "done") { say(`${documentWords(d)}: ${counted(state.files.length, "file is", "files are")} made.`); return; }
    if (["failed", "cancelled"].includes(state.state)) { say(`${documentWords(d)}: ${state.state === "failed" ? "not made" : "cancelled"}.`); return; }
  }
}

// The browser's own viewer shows the pages. Pages of the web are shown without their scripts.
function preview(root) {
  const from = `/api/file/${encodeURIComponent(looking.id)}`, type = looking.type ?? "";
  const image = type.startsWith("image/");
  const shown = image ? el("img", { src: from, alt: looking.name, class: "preview" })
    : el("iframe", { src: from, title: `Pages of ${looking.name}`, class: "preview", ...(type.includes("html") && { sandbox: "" }) });
  return el("section", { id: "pages", "aria-label": `Preview of ${looking.name}` }, el("h2", {}, looking.name),
    el("p", { class: "note warning" }, "Print at 100 % (“actual size”), not “fit to page”. Then measure the scale bar on the first page."),
    shown, button("Close the preview", () => { looking = null; drawPapers(root); }, { class: "small", "data-focus": "papers:close" }));
}
