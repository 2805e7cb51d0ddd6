// The order of things: earlier and later by button, by key, and by dragging within a list.
import { hands, say } from "./dom.js";
import { edit, element, parentOf, store } from "./store.js";
import { elementName } from "./words.js";

const fixed = new Set(["intro", "base", "maker", "supplies"]);

// Those among which a thing can change its place.
export function siblings(key) {
  const parent = parentOf(key), own = element(key);
  if (!parent || !own || fixed.has(own.tag)) return [];
  const alike = (tag) => (parent.tag === "card" ? !fixed.has(tag) : tag === own.tag);
  return parent.children.filter((c) => alike(c.tag));
}

export const canGo = (key, by) => {
  const list = siblings(key), now = list.findIndex((c) => c.key === key);
  return now >= 0 && now + by >= 0 && now + by < list.length;
};

// To stand at `to` among its siblings.
export async function moveTo(key, to) {
  const list = siblings(key), now = list.findIndex((c) => c.key === key);
  if (now < 0 || to === now || to < 0 || to >= list.length) return;
  const rest = list.filter((c) => c.key !== key), next = rest[to];
  const parent = parentOf(key);
  const after = next ? next.key : parent.children[parent.children.indexOf(list.at(-1)) + 1]?.key;
  const done = await edit([{ op: "move", key, ...(after && { before: after }) }]);
  if (done) say(`${nameNow(key)} is number ${to + 1} of ${list.length} now.`);
}
export const go = (key, by) => moveTo(key, siblings(key).findIndex((c) => c.key === key) + by);

const nameNow = (key) => store.things.get(key)?.thing.name ?? elementName(element(key));

// Alt with an arrow moves what has the focus in a list.
export function orderKeys(event, key) {
  const by = { ArrowLeft: -1, ArrowUp: -1, ArrowRight: 1, ArrowDown: 1 }[event.key];
  if (!event.altKey || !by) return false;
  event.preventDefault();
  event.stopPropagation();
  if (canGo(key, by)) go(key, by);
  return true;
}

// Dragging an entry of a list to another place. `entries` answers [{ key, node }] in order.
export function dragOrder(node, key, entries) {
  node.addEventListener("pointerdown", (start) => {
    if (start.button !== 0 || start.pointerType === "touch") return; // touch scrolls the list; buttons move
    let moved = false, target = -1;
    const spots = entries();
    const clear = () => { for (const s of spots) s.node.classList.remove("before-me", "after-me"); node.classList.remove("carried"); };
    const follow = (e) => {
      if (!moved && Math.hypot(e.clientX - start.clientX, e.clientY - start.clientY) < 6) return;
      hands.busy = true;
      moved = true;
      clear();
      node.classList.add("carried");
      const over = spots.findIndex(({ node: n }) => inside(n.getBoundingClientRect(), e));
      target = over;
      if (over >= 0 && spots[over].key !== key)
        spots[over].node.classList.add(over < spots.findIndex((s) => s.key === key) ? "before-me" : "after-me");
    };
    const stop = (e) => {
      window.removeEventListener("pointermove", follow);
      window.removeEventListener("pointerup", stop);
      window.removeEventListener("pointercancel", stop);
      clear();
      hands.busy = false;
      if (!moved) return;
      // What it was let go over is not pressed.
      const still = (c) => { c.stopPropagation(); c.preventDefault(); };
      window.addEventListener("click", still, { once: true, capture: true });
      setTimeout(() => window.removeEventListener("click", still, { capture: true }), 0);
      if (e.type === "pointerup" && target >= 0 && spots[target].key !== key)
        moveTo(key, siblings(key).findIndex((s) => s.key === spots[target].key));
    };
    window.addEventListener("pointermove", follow);
    window.addEventListener("pointerup", stop);
    window.addEventListener("pointercancel", stop);
  });
}

const inside = (box, e) => e.clientX >= box.left && e.clientX <= box.right && e.clientY >= box.top && e.clientY <= box.bottom;
