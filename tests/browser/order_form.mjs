// Orders every option by the form in a browser, and lets the program read what it composes:
// `node order_form.mjs PROGRAM PROJECT_FOLDER FORM.html`. The folder's roster is written anew.
import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import puppeteer from "puppeteer-core";

const [program, folder, form] = process.argv.slice(2);
const browser = await puppeteer.launch({
  executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
  args: ["--no-sandbox", "--disable-gpu"],
});
const page = await browser.newPage();
const asked = [];
page.on("request", (request) => { if (!request.url().startsWith("file:")) asked.push(request.url()); });
const faults = [];
page.on("pageerror", (error) => faults.push(error.message));

const order = async (option, ticks) => {
  await page.goto(pathToFileURL(form).href);
  await page.type("#q-name", `Ada "the" Reed, ${option}`);
  await page.type("#q-e-mail", "ada@fenmoor.example");
  if (await page.$("#q-address")) await page.type("#q-address", "1 Lane\nFenmoor");
  await page.click(`input[name=tier][value="${option}"]`);
  for (const box of await page.$$("fieldset:not([data-column=tier]) label:not([hidden]) input"))
    if (ticks) await box.click();
  await page.click("button[type=submit]");
  return page.evaluate(() => ({ words: document.getElementById("words").value, mail: document.getElementById("mail").href }));
};

await page.goto(pathToFileURL(form).href);
const options = await page.$$eval("input[name=tier]", (boxes) => boxes.map((box) => box.value));
assert.ok(options.length > 0);
let heading = "", rows = "", count = 0;
for (const option of options)
  for (const ticks of [false, true]) {
    const made = await order(option, ticks);
    const text = made.words.slice(made.words.indexOf("For the order list:")).replaceAll("\r\n", "\n").split("\n").slice(1).join("\n");
    const end = text.indexOf("\n");
    assert.ok(heading === "" || heading === text.slice(0, end));
    heading = text.slice(0, end);
    rows += text.slice(end + 1);
    ++count;
    const sent = new URL(made.mail);
    assert.equal(sent.protocol, "mailto:");
    assert.match(sent.pathname, /^[^@]+@[^@]+$/);
    assert.equal(sent.searchParams.get("body").replaceAll("\r\n", "\n"), made.words.replaceAll("\r\n", "\n"));
  }
await browser.close();
assert.deepEqual(asked, [], "the form asks for something from elsewhere");
assert.deepEqual(faults, []);

writeFileSync(join(folder, "roster.csv"), heading + "\n" + rows);
const read = spawnSync(program, ["totals", join(folder, "project.xml"), "-o", join(folder, "out")], { encoding: "utf8" });
assert.equal(read.status, 0, read.stderr);
// Two orders of one name, late ones and swaps beyond a credit are told; nothing is misread.
for (const code of ["roster-", "order-unknown", "order-date", "order-quantity", "order-no-name", "order-amount", "order-status"])
  for (const line of read.stderr.split("\n"))
    assert.ok(!line.includes("[" + code) || line.includes("[roster-no-heading]"), line);
console.log(`${count} orders composed by the form and read`);
