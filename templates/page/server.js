// What the page asks of the program that serves it.

export class Refusal extends Error {
  constructor(status, answer) {
    super(answer.error ?? "That did not work.");
    this.status = status;
    this.answer = answer;
  }
}

async function ask(path, options) {
  let reply;
  try {
    reply = await fetch(path, { credentials: "same-origin", cache: "no-store", ...options });
  } catch {
    throw new Refusal(0, { error: "The program does not answer. Is it still running?",
      fix: "Start it again and open the address it prints." });
  }
  const answer = await reply.json().catch(() => ({}));
  if (!reply.ok) throw new Refusal(reply.status, answer);
  return answer;
}

export const get = (path) => ask(path);
export const post = (path, body) => ask(path, {
  method: "POST", headers: { "content-type": "application/json" }, body: JSON.stringify(body ?? {}),
});

export async function words(path) {
  const reply = await fetch(path, { credentials: "same-origin", cache: "no-cache" }); // asks whether it changed
  if (!reply.ok) throw new Refusal(reply.status, await reply.json().catch(() => ({})));
  return reply.text();
}

// Edits go one after another. Of those that wait and belong to one movement only the last is sent,
// for each says where the thing is to be, not how far it goes.
const waiting = [];
let busy = false;

export function edit(rev, edits, { group, preview } = {}) {
  return new Promise((done, failed) => {
    const last = waiting.at(-1);
    const same = group && last?.group === group && last.preview === preview && edits.every((e) => e.op === "set");
    if (same) {
      last.edits = edits;
      last.ends.push([done, failed]);
    } else {
      waiting.push({ edits, group, preview, rev, ends: [[done, failed]] });
    }
    if (!busy) send();
  });
}

async function send() {
  busy = true;
  while (waiting.length > 0) {
    const { edits, group, preview, rev, ends } = waiting.shift();
    try {
      const answer = await post("/api/edit", { rev: rev(), edits, ...(group && { group }), ...(preview && { preview }) });
      for (const [done] of ends) done(answer);
    } catch (refusal) {
      for (const [, failed] of ends) failed(refusal);
    }
  }
  busy = false;
}

// When no edit waits for its answer.
export async function idle() {
  while (busy) await new Promise((done) => setTimeout(done, 30));
}

// Calls `heard` with the kind and the data of each event; a lost connection is tried again.
export function listen(heard) {
  const events = new EventSource("/api/events");
  for (const kind of ["project", "job", "saved", "outside", "facts"])
    events.addEventListener(kind, (event) => heard(kind, parsed(event.data)));
  return events;
}

function parsed(text) {
  try { return JSON.parse(text); } catch { return {}; }
}
