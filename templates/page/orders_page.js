// The order list: drop a CSV, say once which heading means what, see each row read, mend it.
import { button, el, newId, region, say } from "./dom.js";
import { get, post } from "./server.js";
import { refused, store } from "./store.js";
import { counted, sentence, severityWords, spelt } from "./words.js";

const most = 2 * 1024 * 1024;
const page = { list: null, rev: null, trouble: null };

export async function drawOrders(root) {
  if (page.rev !== store.project.rev) {
    page.rev = store.project.rev;
    try { page.list = await get("/api/orders"); page.trouble = null; } catch (refusal) { page.list = null; page.trouble = refusal.answer?.error ?? refusal.message; }
  }
  build(root);
}

function build(root) {
  const { list, trouble } = page;
  region(root, ["orders", list, trouble], () => [
    el("h1", {}, "Orders"),
    el("p", { class: "lead" }, list?.file ? `${list.file}: ${counted(list.rows.length, "row", "rows")}.` : "No order list yet. Drop the export of your shop or form here."),
    trouble && !/no order|none/i.test(trouble) && el("p", { class: "note warning" }, trouble),
    dropBox(root),
    list?.headings?.length > 0 && [mapping(root, list), rows(root, list)],
  ]);
}

// One after another: each goes on from what the one before made of the list.
let last = Promise.resolve();
const send = (root, path, body, words) => { last = last.then(() => sendNow(root, path, body, words)); return last; };

async function sendNow(root, path, body, words) {
  try {
    const answer = await post(path, typeof body === "function" ? body(page.list) : body);
    page.list = answer.rows ? answer : await get("/api/orders");
    page.trouble = null;
    say(words);
  } catch (refusal) { refused(refusal); }
  build(root);
}

function dropBox(root) {
  const id = newId("csv");
  const take = async (file) => {
    if (!file) return;
    if (file.size > most) { say("This file is too large for an order list."); return; }
    await send(root, "/api/orders/drop", { name: file.name, csv: await file.text() }, `${file.name} is read.`);
  };
  const box = el("div", { class: "drop", on: {
    dragover: (e) => { e.preventDefault(); box.classList.add("over"); },
    dragleave: () => box.classList.remove("over"),
    drop: (e) => { e.preventDefault(); box.classList.remove("over"); take(e.dataTransfer.files[0]); },
  } }, el("label", { for: id }, "Drop a CSV file here, or choose one"),
  el("input", { type: "file", id, accept: ".csv,text/csv", "data-focus": "orders:file", on: { change: (e) => take(e.target.files[0]) } }));
  return box;
}

// Which heading means what; said once, for every later export alike.
function mapping(root, list) {
  const set = (heading, column, field) => {
    const next = (as) => {
      const now = Object.fromEntries(Object.entries(as.mapping).filter(([, f]) => f !== field));
      if (field) now[as.headings[column]] = field; else delete now[as.headings[column]];
      return { mapping: now };
    };
    send(root, "/api/orders/map", next, `${heading} is ${field ? list.fields.find((f) => f.name === field)?.label : "left out"}.`);
  };
  const missing = list.fields.filter((f) => f.required && !Object.values(list.mapping).includes(f.name));
  return el("section", { "aria-labelledby": "mapping-title" }, el("h2", { id: "mapping-title" }, "What the headings mean"),
    missing.length > 0 && el("p", { class: "note warning" }, `Still to say: ${missing.map((f) => f.label.toLowerCase()).join(", ")}.`),
    el("div", { class: "mapping" }, list.headings.map((heading, i) => {
      const id = newId("map");
      return el("div", { class: "field" }, el("label", { for: id }, heading || `Column ${i + 1}`),
        el("select", { id, value: list.mapping[heading] ?? "", "data-focus": `map:${i}`, on: { change: (e) => set(heading, i, e.target.value) } },
          el("option", { value: "" }, "leave out"), list.fields.map((f) => el("option", { value: f.name }, label(f)))));
    })));
}

const label = (f) => spelt(f.label.charAt(0).toUpperCase() + f.label.slice(1));
const states = ["open", "paid", "cancelled", "refunded", "test"];

function rows(root, list) {
  const fields = list.fields.filter((f) => Object.values(list.mapping).includes(f.name) || ["name", "tier", "quantity", "status"].includes(f.name));
  const set = (line, field, words) => send(root, "/api/orders/set", { line, field, value: words }, "Kept.");
  const cell = (r, f) => {
    const name = `order:${r.line}:${f.name}`, words = `${label(f)}, line ${r.line}`, now = r.read[f.name] ?? "";
    if (f.name === "status") return el("select", { "aria-label": words, value: now, "data-focus": name, on: { change: (e) => set(r.line, f.name, e.target.value) } },
      [...new Set([now, ...states])].map((s) => el("option", { value: s }, s || "not said")));
    return el("input", { type: "text", "aria-label": words, value: String(now), "data-focus": name, on: { change: (e) => set(r.line, f.name, e.target.value) } });
  };
  return el("section", { "aria-labelledby": "orders-title" }, el("h2", { id: "orders-title" }, "Each row, as it is read"),
    el("div", { class: "wide", tabindex: "0", role: "region", "aria-label": "Table of orders" }, el("table", { class: "orders" },
      el("thead", {}, el("tr", {}, el("th", { scope: "col" }, "Line"), el("th", { scope: "col" }, "Paid or cancelled"), fields.map((f) => el("th", { scope: "col" }, label(f))))),
      el("tbody", {}, list.rows.map((r) => [el("tr", { class: r.findings?.length ? "has-notes" : "" }, el("th", { scope: "row" }, String(r.line)),
        el("td", { class: "acts" },
          button("Paid", () => set(r.line, "status", "paid"), { class: "small", "aria-label": `Paid: line ${r.line}`, "aria-pressed": String(r.read.status === "paid"), "data-focus": `paid:${r.line}` }),
          button("Cancelled", () => set(r.line, "status", "cancelled"), { class: "small", "aria-label": `Cancelled: line ${r.line}`, "aria-pressed": String(r.read.status === "cancelled"), "data-focus": `cancel:${r.line}` })),
        fields.map((f) => el("td", {}, cell(r, f)))),
      r.findings?.length > 0 && el("tr", { class: "row-notes" }, el("td", { colspan: String(fields.length + 2) },
        r.findings.map((f) => el("p", { class: `note ${f.severity}` }, el("strong", {}, `${severityWords(f.severity)}: `), sentence(f.found), f.fix ? ` Fix: ${sentence(f.fix)}` : ""))))])))));
}
