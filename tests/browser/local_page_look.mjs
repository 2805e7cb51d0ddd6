// The page in every view: what axe-core says, and whether anything stands out sideways.
import assert from "node:assert/strict";
import { join } from "node:path";

const views = { cards: "#cards", card: "#card/trees/front", inside: "#card/trees/inside", step: "#card/gate/step-3", supplies: "#supplies",
  class: "#class", orders: "#orders", papers: "#papers", notes: "#notes" };

async function show(page, name) {
  await page.evaluate((h) => { location.hash = h; }, views[name]);
  await page.waitForTimeout(500);
  if (name === "card") {
    const piece = page.locator("button.piece", { hasText: "tree panel" }).first();
    if (await piece.getAttribute("aria-pressed") !== "true") await piece.click();
    await page.waitForTimeout(300);
  }
}

const shot = (page, name) => process.env.SHOTS && page.screenshot({ path: join(process.env.SHOTS, `${name}.png`), fullPage: true });

async function judged(page, axe) {
  const session = await page.context().newCDPSession(page); // the page's own policy keeps strangers out
  await session.send("Runtime.evaluate", { expression: axe });
  await session.detach();
  return page.evaluate(() => window.axe.run(document, {
    runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
  }));
}
const told = (result) => result.violations.map((v) => `${v.id}: ${v.nodes[0].html.slice(0, 120)}`);
export const violations = async (page, axe) => told(await judged(page, axe));

export async function accessibility(page, axe, theme) {
  await page.emulateMedia({ colorScheme: theme });
  const found = [];
  let passed = 0;
  for (const name of Object.keys(views)) {
    await show(page, name);
    await shot(page, `${name}-${theme}`);
    const result = await judged(page, axe);
    passed += result.passes.length;
    found.push(...told(result).map((v) => `${name}: ${v}`));
  }
  assert.deepEqual(found, []);
  return `${Object.keys(views).length} views, ${passed} rules passed`;
}

// 320 x 256 is what is left of 1280 x 1024 at 400 % (WCAG 2.2, 1.4.10).
export async function widths(page) {
  const out = [];
  for (const [label, width, height] of [["phone", 360, 740], ["tablet", 820, 1180], ["zoom", 320, 256]]) {
    await page.setViewportSize({ width, height });
    for (const name of Object.keys(views)) {
      await show(page, name);
      await shot(page, `${name}-${label}`);
      const over = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
      if (over > 0) out.push(`${label}, ${name}: ${over} px`);
    }
  }
  assert.deepEqual(out, []);
}
