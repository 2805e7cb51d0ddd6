// Looks at HTML files in a headless Chromium: `node page.mjs FILE.html...`. At a desk's and at a
// phone's width, axe-core finds nothing against WCAG 2.2 A and AA or good practice, nothing
// stands out sideways, no line of text is longer than is good to read, and scale bars print true.
import { readFileSync } from "node:fs";
import { pathToFileURL } from "node:url";
import { createRequire } from "node:module";
import puppeteer from "puppeteer-core";

const require = createRequire(import.meta.url);
const axe = readFileSync(require.resolve("axe-core/axe.min.js"), "utf8");
const shots = process.env.SHOTS; // a folder for screenshots
const widths = [1280, 768, 360];
let faults = 0;
const fault = (words) => { ++faults; console.log("  FAULT " + words); };

const browser = await puppeteer.launch({
  executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
  args: ["--no-sandbox", "--disable-gpu"],
});
for (const file of process.argv.slice(2)) {
  console.log(file);
  const page = await browser.newPage();
  const asked = [];
  page.on("request", (r) => { if (!/^(file|data):/.test(r.url())) asked.push(r.url()); });
  page.on("pageerror", (e) => fault(e.message));
  for (const width of widths) {
    await page.setViewport({ width, height: 800, isMobile: width < 500, deviceScaleFactor: 1 });
    await page.goto(pathToFileURL(file).href, { waitUntil: "load" });
    await page.evaluate(() => document.fonts.ready);
    const seen = await page.evaluate(() => {
      const out = { over: [], long: [], empty: [], fonts: [...document.fonts].filter((f) => f.status === "loaded").length };
      const width = document.documentElement.clientWidth;
      out.scroll = document.documentElement.scrollWidth - width;
      for (const e of document.body.querySelectorAll("*")) {
        if (e.closest("svg") && e.tagName !== "svg") continue;
        if (e.closest(".wide table, .shared, .skip, .unseen")) continue;
        const box = e.getBoundingClientRect();
        if (box.width > 0 && box.right > width + 1) out.over.push(e.tagName + "." + e.className + " " + box.right);
        if (e.tagName === "svg" && !e.closest(".shared") && (box.width < 4 || box.height < 4))
          out.empty.push(e.getAttribute("aria-label"));
      }
      // 70 letters of a line, by the mean width of the letters of English text.
      for (const p of document.querySelectorAll("main p, main li:not(.step)")) {
        const range = document.createRange();
        range.selectNodeContents(p);
        const lines = new Set([...range.getClientRects()].map((r) => Math.round(r.top / 6))).size;
        const letters = p.textContent.trim().length;
        const size = parseFloat(getComputedStyle(p).fontSize);
        if (p.getBoundingClientRect().width / size > 42) out.long.push(letters + " letters, " + lines + " lines: " + p.textContent.slice(0, 40));
      }
      return out;
    });
    if (seen.scroll > 0) fault(`${width} px: scrolls sideways by ${seen.scroll} px`);
    for (const e of seen.over.slice(0, 5)) fault(`${width} px: stands out: ${e}`);
    for (const e of seen.empty.slice(0, 5)) fault(`${width} px: an empty drawing: ${e}`);
    for (const e of seen.long.slice(0, 5)) fault(`${width} px: long lines: ${e}`);
    await page.evaluate(axe);
    const result = await page.evaluate(async () => {
      const r = await axe.run(document, {
        runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
      });
      const brief = (list) => list.map((v) => `${v.id} (${v.impact}): ${v.nodes.length}x, ${v.nodes[0].html.slice(0, 160)}`);
      return { violations: brief(r.violations), open: brief(r.incomplete), passes: r.passes.length };
    });
    for (const v of result.violations) fault(`${width} px: axe: ${v}`);
    console.log(`  ${width} px: ${result.passes} rules of axe-core ${(await page.evaluate(() => axe.version))} pass, ${result.violations.length} do not; ${seen.fonts} fonts in use`);
    for (const v of result.open) console.log(`    for a person to judge: ${v}`);
    if (shots) await page.screenshot({ path: `${shots}/${file.split("/").pop()}-${width}.png`, fullPage: true });
  }
  for (const url of asked) fault("asks for " + url);
  await page.emulateMediaType("print");
  await page.setViewport({ width: 700, height: 1000 });
  const bars = await page.evaluate(() =>
    [...document.querySelectorAll(".true > svg")].map((svg) =>
      [svg.getBoundingClientRect().width / 96 * 25.4, svg.viewBox.baseVal.width]));
  for (const [shown, real] of bars)
    if (Math.abs(shown - real) > 0.05) fault(`a drawing of ${real} mm prints ${shown} mm wide`);
  console.log(`  ${bars.length} drawings print at their true size`);
  if (shots) await page.pdf({ path: `${shots}/${file.split("/").pop()}.pdf`, preferCSSPageSize: true, printBackground: true, format: "Letter" });
  await page.close();
}
await browser.close();
console.log(faults === 0 ? "no faults" : `${faults} faults`);
process.exit(faults === 0 ? 0 : 1);
