// The order of making: a slider over the steps, the step in words, and all steps to read.
import { button, el, region } from "./dom.js";
import { lights, relight } from "./picture.js";
import { choose, element, store } from "./store.js";
import { nice } from "./measure.js";
import { go } from "./router.js";

export function drawSteps(root, card, view) {
  const now = /^step-(\d+)$/.test(view) ? Number(view.slice(5)) : 0;
  const last = card.steps.length, step = card.steps[now - 1];
  if (last === 0) { region(root, "none", () => []); return; }
  const made = [card.id, now, card.steps.map((s) => [s.n, s.key, s.title, s.words]), store.chosen];
  const show = (n) => go("card", card.id, n === 0 ? "front" : `step-${n}`);
  const drawn = region(root, made, () => [
    el("h2", { id: "steps-title" }, "The order of making"),
    el("div", { class: "slider" },
      button("←", () => show(Math.max(0, now - 1)), { "aria-label": "One step back", disabled: now === 0, "data-focus": "step:back" }),
      el("input", { type: "range", min: "0", max: String(last), step: "1", value: String(now), "aria-labelledby": "steps-title",
        "aria-valuetext": step ? `Step ${now} of ${last}: ${step.title}` : "The finished card", "data-focus": "step:slider",
        on: { input: (e) => show(Number(e.target.value)) } }),
      button("→", () => show(Math.min(last, now + 1)), { "aria-label": "One step on", disabled: now === last, "data-focus": "step:on" })),
    step ? shown(step, last) : el("p", { class: "step-words quiet" }, `The finished card. Move the slider to see each of its ${last} steps.`),
    el("details", { class: "all-steps" }, el("summary", { "data-focus": "steps:all" }, "All steps in words"),
      el("ol", {}, card.steps.map((s) => el("li", { "data-thing": s.key, on: { pointerenter: lights(s.key).pointerenter, pointerleave: lights(s.key).pointerleave } },
        el("a", { href: `#card/${card.id}/step-${s.n}`, "data-focus": `steps:${s.n}` }, s.title), " ", el("span", { class: "quiet" }, nice(s.words)))))),
  ]);
  if (drawn) relight(root);
}

function shown(step, last) {
  const thing = store.things.get(step.key)?.thing;
  return el("div", { class: "step-words", "data-thing": step.key },
    el("p", {}, el("strong", {}, `${step.n} of ${last}. ${step.title}`)),
    el("p", {}, nice(step.words)),
    element(step.key) && button(thing ? `Choose ${thing.name}` : "Choose what it is about", () => choose(step.key),
      { class: "small", "data-focus": "step:choose" }));
}
