// Opens every .html file of a folder in headless Chromium and checks what only a browser knows:
//
//   cd tests/browser && npm install
//   node pages.mjs ../../target/debug/trencher FOLDER
//   node check.mjs FOLDER [--chromium PATH] [--shots FOLDER]
//
// - no two labels of a drawing overlap, and none leaves its drawing (bounding boxes measured)
// - no sideways scrolling at 360 px, nor at 200 % text
// - no script ran, nothing was asked from the network, the console is quiet
// - printed pages: as many as the page's `.dish` and `.cover` sheets promise (usual print, A4 or Letter)
// - axe-core: no serious or critical finding, light and dark
//
// Exits 1 when anything failed; prints one line a file and a closing count.

import { readdir, readFile, mkdir } from "node:fs/promises";
import { createRequire } from "node:module";
import path from "node:path";
import { pathToFileURL } from "node:url";
import { chromium } from "playwright-core";

const args = process.argv.slice(2);
const option = (name, otherwise) => {
  const at = args.indexOf(name);
  return at < 0 ? otherwise : args.splice(at, 2)[1];
};
const executablePath = option("--chromium", process.env.CHROMIUM ?? "/usr/bin/chromium");
const shots = option("--shots", null);
const folder = args[0];
if (!folder) {
  console.error("usage: node check.mjs FOLDER [--chromium PATH] [--shots FOLDER]");
  process.exit(2);
}
const axe = await readFile(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const files = (await readdir(folder)).filter((name) => name.endsWith(".html")).sort();
if (shots) await mkdir(shots, { recursive: true });

/** Labels that touch or leave their drawing; runs in the page. */
function measureLabels() {
  const faults = [];
  let labels = 0;
  for (const svg of document.querySelectorAll("svg.trencher")) {
    const frame = svg.getBoundingClientRect();
    const boxes = [...svg.querySelectorAll("text")].map((text) => ({
      words: text.textContent,
      box: text.getBoundingClientRect(),
    }));
    labels += boxes.length;
    boxes.forEach(({ words, box }, i) => {
      const out = 1;
      if (box.left < frame.left - out || box.right > frame.right + out || box.top < frame.top - out || box.bottom > frame.bottom + out) {
        faults.push(`"${words}" leaves its drawing`);
      }
      for (const other of boxes.slice(i + 1)) {
        const wide = Math.min(box.right, other.box.right) - Math.max(box.left, other.box.left);
        const high = Math.min(box.bottom, other.box.bottom) - Math.max(box.top, other.box.top);
        // Line boxes of neighbouring lines share their empty edges; letters do not reach there.
        if (wide > 0.5 && high > 0.22 * Math.min(box.height, other.box.height)) {
          faults.push(`"${words}" overlaps "${other.words}"`);
        }
      }
    });
  }
  return { faults, labels, drawings: document.querySelectorAll("svg.trencher").length };
}

/** Elements that stick out sideways; runs in the page. */
function sideways() {
  const root = document.documentElement;
  return root.scrollWidth > root.clientWidth + 1
    ? [`scrolls sideways: ${root.scrollWidth} px in ${root.clientWidth} px`]
    : [];
}

const pageCount = (pdf) => pdf.toString("latin1").match(/\/Type\s*\/Page\b(?!s)/g)?.length ?? 0;

async function axeFaults(page) {
  await page.evaluate(axe);
  const { violations } = await page.evaluate(() => window.axe.run(document, { resultTypes: ["violations"] }));
  return violations
    .filter((v) => ["serious", "critical"].includes(v.impact))
    .map((v) => `axe ${v.id} (${v.impact}): ${v.nodes.length} times, such as ${v.nodes[0].target}`);
}

async function check(browser, name) {
  const faults = [];
  const shot = async (page, what) => {
    if (!shots) return;
    // Beyond about 16,000 px a screenshot fails: of a whole booklet only the start is kept.
    const fullPage = (await page.evaluate(() => document.documentElement.scrollHeight)) < 12000;
    await page.screenshot({ path: path.join(shots, `${name}-${what}.png`), fullPage });
  };
  // `bypassCSP` lets axe in; whether the page's own content could run is judged without it.
  const context = await browser.newContext({ bypassCSP: true, viewport: { width: 1100, height: 900 } });
  const page = await context.newPage();
  const url = pathToFileURL(path.resolve(folder, name)).href;
  page.on("request", (r) => r.url() !== url && faults.push(`asks for ${r.url().slice(0, 80)}`));
  page.on("console", (m) => faults.push(`console: ${m.text().slice(0, 120)}`));
  page.on("pageerror", (e) => faults.push(`script error: ${e.message}`));
  page.on("dialog", (d) => { faults.push(`dialog: ${d.message()}`); d.dismiss(); });
  await page.goto(url);
  const title = await page.title();
  const parsed = await page.evaluate(() => document.querySelector("title").textContent.trim().replace(/\s+/g, " "));
  if (title !== parsed) faults.push(`title was changed to ${title}`);

  const { faults: labelFaults, labels, drawings } = await page.evaluate(measureLabels);
  faults.push(...labelFaults);
  await shot(page, "light");

  const sheets = await page.evaluate(() => ({
    large: document.documentElement.classList.contains("large"),
    dishes: document.querySelectorAll(".dish").length,
    covers: document.querySelectorAll(".cover:not(.short)").length,
  }));
  const pdf = await page.pdf({ preferCSSPageSize: true, ...(shots && { path: path.join(shots, `${name}.pdf`) }) });
  const printed = pageCount(pdf);
  // Large print takes what it needs, two pages a dish at most; a long contents list runs on.
  const most = sheets.large ? sheets.dishes * 2 : sheets.dishes;
  const contents = sheets.covers ? Math.max(1, Math.ceil((await page.locator(".contents li").count()) / 60)) : 0;
  if (printed > most + contents || printed < sheets.dishes) {
    faults.push(`prints on ${printed} pages for ${sheets.dishes} dishes`);
  }

  faults.push(...(await axeFaults(page)));
  await page.emulateMedia({ colorScheme: "dark" });
  faults.push(...(await axeFaults(page)).map((f) => `dark: ${f}`));
  await shot(page, "dark");
  await page.emulateMedia({ colorScheme: "light" });

  await page.setViewportSize({ width: 360, height: 740 });
  faults.push(...(await page.evaluate(sideways)).map((f) => `360 px: ${f}`));
  faults.push(...(await page.evaluate(measureLabels)).faults.map((f) => `360 px: ${f}`));
  await shot(page, "360");
  await page.setViewportSize({ width: 1100, height: 900 });
  await page.addStyleTag({ content: "html { font-size: 200% !important; }" });
  faults.push(...(await page.evaluate(sideways)).map((f) => `200 % text: ${f}`));
  await shot(page, "200");
  await context.close();
  return { faults: [...new Set(faults)], labels, drawings, printed };
}

const browser = await chromium.launch({
  executablePath,
  args: ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--no-first-run"],
});
let failed = 0;
let [allLabels, allDrawings] = [0, 0];
for (const name of files) {
  const { faults, labels, drawings, printed } = await check(browser, name);
  allLabels += labels;
  allDrawings += drawings;
  failed += faults.length > 0 ? 1 : 0;
  console.log(`${faults.length ? "FAILED" : "ok"} ${name}: ${drawings} drawings, ${labels} lines of text, ${printed} printed pages`);
  for (const fault of faults.slice(0, 12)) console.log(`    ${fault}`);
  if (faults.length > 12) console.log(`    and ${faults.length - 12} more`);
}
await browser.close();
console.log(`${allDrawings} drawings with ${allLabels} lines of text measured`);
console.log(`${files.length - failed} passed, ${failed} failed`);
process.exit(failed ? 1 : 0);
