// Opens every .html and .svg file of a folder in headless Chromium and checks what only a browser knows:
//
//   cd tests/browser && npm install
//   node pages.mjs ../../target/debug/trencher FOLDER
//   node check.mjs FOLDER [--chromium PATH] [--shots FOLDER]
//
// - labels at 360, 768, 1,100 and 1,280 px and in print: none overlaps another, no leader runs
//   through the label of another food, none is below 11 px on a screen or 7.5 pt in print, every
//   food drawn has one
// - a fold-out at life size prints at life size; a quiz gives no answer away and can be answered
//   without seeing; contents and dishes lead to each other and name the printed page
// - all other words, those of tables, footers and drawings too: none below 7.5 pt in print, on any kind of
//   page; nothing is so wide that a printer shrinks it; no half of a comparison nearly empty
// - standalone drawings (.svg): words 11 px high at 360 px (a card) or apart, on white, every number explained
// - boxes of a day sheet add up to the portions said, each group's of its own shape, none cut off
// - headline, strip and table of a dish agree: energy, what is beyond, amounts by group
// - no sideways scrolling at 360, 768 or 1,280 px, nor at 200 % text
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
const files = (await readdir(folder)).filter((name) => /\.(html|svg)$/.test(name)).sort();
if (shots) await mkdir(shots, { recursive: true });

/** What is wrong with the labels as they stand; runs in the page. `least` in CSS pixels. */
function measureLabels(least) {
  const faults = [];
  let labels = 0;
  let smallest = Infinity;
  const shown = (element) => element.getClientRects().length > 0 && getComputedStyle(element).display !== "none";
  const touch = (a, b, slack) =>
    Math.min(a.right, b.right) - Math.max(a.left, b.left) > slack && Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > slack;
  const crosses = (line, box) => {
    // A line through a box meets one of its points when walked in small steps.
    for (let at = 0; at <= 200; at++) {
      const x = line.x1 + ((line.x2 - line.x1) * at) / 200;
      const y = line.y1 + ((line.y2 - line.y1) * at) / 200;
      if (x > box.left + 1 && x < box.right - 1 && y > box.top + 1 && y < box.bottom - 1) return true;
    }
    return false;
  };
  for (const frame of document.querySelectorAll(".frame")) {
    const items = [...frame.querySelectorAll(".labels li")];
    // The words' own boxes: an item is as wide as its column.
    const boxes = items.map((item) => {
      const range = document.createRange();
      range.selectNodeContents(item);
      const rects = [...range.getClientRects()].filter((r) => r.width > 0);
      const all = (pick, how) => how(...rects.map(pick));
      return {
        words: item.textContent.trim().replace(/\s+/g, " "),
        left: all((r) => r.left, Math.min), right: all((r) => r.right, Math.max),
        top: all((r) => r.top, Math.min), bottom: all((r) => r.bottom, Math.max),
      };
    });
    labels += boxes.length;
    for (const element of frame.querySelectorAll(".labels li *, .num")) {
      if (shown(element)) smallest = Math.min(smallest, parseFloat(getComputedStyle(element).fontSize));
    }
    boxes.forEach((box, at) => {
      for (const other of boxes.slice(at + 1)) {
        if (touch(box, other, 2)) faults.push(`"${box.words}" overlaps "${other.words}"`);
      }
    });
    const numbers = [...frame.querySelectorAll(".num")].filter(shown);
    numbers.forEach((number, at) => {
      for (const other of numbers.slice(at + 1)) {
        if (touch(number.getBoundingClientRect(), other.getBoundingClientRect(), 5)) {
          faults.push(`numbers ${number.textContent} and ${other.textContent} overlap`);
        }
      }
    });
    const leaders = [...frame.querySelectorAll(".leaders circle")];
    if (leaders.length && shown(leaders[0].parentNode)) {
      const lines = [...frame.querySelectorAll(".leaders path:not(.halo)")];
      lines.forEach((path, at) => {
        const matrix = path.getScreenCTM();
        const [from, to] = [0, path.getTotalLength()].map((l) => path.getPointAtLength(l).matrixTransform(matrix));
        const line = { x1: from.x, y1: from.y, x2: to.x, y2: to.y };
        boxes.forEach((box, other) => {
          if (other !== at && crosses(line, box)) faults.push(`the leader of "${boxes[at].words}" runs through "${box.words}"`);
        });
      });
    }
    const drawn = new Set([...frame.querySelectorAll(".food")].map((food) => food.dataset.food));
    if (drawn.size !== items.length) faults.push(`${drawn.size} foods drawn, ${items.length} labelled`);
  }
  if (smallest < least - 0.05) faults.push(`a label is ${smallest.toFixed(1)} px high, ${least} at least`);
  return { faults, labels, drawings: document.querySelectorAll("svg.trencher").length, smallest };
}

/** Words that are too small as they stand; runs in the page. `least` in CSS pixels. */
function smallWords(least) {
  const found = new Map();
  const walker = document.createTreeWalker(document.body ?? document.documentElement, NodeFilter.SHOW_TEXT);
  while (walker.nextNode()) {
    const [words, element] = [walker.currentNode.textContent.trim(), walker.currentNode.parentElement];
    if (!words || element.closest("style, title, desc, defs, .aloud") || !element.checkVisibility()) continue;
    const range = document.createRange();
    range.selectNodeContents(walker.currentNode);
    if (![...range.getClientRects()].some((r) => r.width > 0)) continue;
    let size = parseFloat(getComputedStyle(element).fontSize);
    const matrix = element.ownerSVGElement && element.getScreenCTM();
    if (matrix) size *= Math.hypot(matrix.b, matrix.d);
    if (size < least - 0.05) found.set(`${element.closest("[class]")?.getAttribute("class") ?? ""} ${element.tagName}`, [size, words]);
  }
  return [...found].map(([where, [size, words]]) => `${where.trim()}: "${words.slice(0, 40)}" is ${size.toFixed(1)} px high, ${least} at least`);
}

/** Width and height in CSS pixels of what a page prints on between its margins; runs in the page. */
function printRoom() {
  const sizes = [...document.querySelectorAll("style")].flatMap((s) => [...s.textContent.matchAll(/@page \{ size: (\w+)( landscape)?/g)]);
  const [, paper, across] = sizes.at(-1);
  const mm = paper === "letter" ? [215.9, 279.4] : [210, 297];
  if (across) mm.reverse();
  return { width: ((mm[0] - 24) / 25.4) * 96, height: ((mm[1] - 22) / 25.4) * 96 };
}

/** Pages of a comparison of many that are nearly empty; runs in the page, as printed. */
function nearlyEmpty(high) {
  const second = document.querySelector(".many .second");
  if (!second) return [];
  const [page, foot] = [second.closest(".dish").getBoundingClientRect(), second.getBoundingClientRect()];
  return [["first", foot.top - page.top], ["second", foot.height]]
    .filter(([, filled]) => filled < high * 0.4)
    .map(([which, filled]) => `the ${which} page is filled to ${Math.round((filled / high) * 100)} %`);
}

/** Where headline, strip and table of a dish say different things; runs in the page. */
function contradictions() {
  const faults = [];
  const clean = (element) => element?.textContent.trim().replace(/\s+/g, " ") ?? "";
  for (const dish of document.querySelectorAll(".dish:not(.both):not(.guess):not(.answer):not(.day-sheet):not(.fold)")) {
    const [glance, beyond] = [...dish.querySelectorAll(".answers dd")].map(clean);
    const rows = [...dish.querySelectorAll(".shares tbody tr")].map((row) => ({
      name: clean(row.querySelector("th")).toLowerCase(),
      figures: clean(row.querySelector(".figures")),
      beyond: row.classList.contains("beyond"),
    }));
    const energy = rows.find((row) => row.name === "energy");
    const kcal = glance.match(/([\d,]+) kcal/)?.[1];
    if (energy && kcal && !energy.figures.startsWith(`${kcal} `)) faults.push(`headline ${kcal} kcal, table ${energy.figures}`);
    for (const row of rows.filter((r) => r.beyond)) {
      if (!beyond.toLowerCase().includes(row.name) && rows.filter((r) => r.beyond).length <= 3) faults.push(`${row.name} is beyond in the table alone: "${beyond}"`);
    }
    if (beyond.startsWith("Nothing") && rows.some((r) => r.beyond)) faults.push("the headline says nothing is beyond");
    for (const cell of dish.querySelector(".strip")?.querySelectorAll("li") ?? []) {
      const name = clean(cell.querySelector("b")).toLowerCase();
      const amount = clean(cell.querySelector("span")).split(" ")[0];
      const row = rows.find((r) => r.name === name || r.name.startsWith(`${name},`));
      if (!row) faults.push(`${name} stands in the strip alone`);
      else if (!row.figures.startsWith(`${amount} `)) faults.push(`${name}: strip ${amount}, table ${row.figures}`);
    }
  }
  return faults;
}

/** Boxes of a day sheet that are not the portions said beside them, or cut off; runs in the page. */
function boxesOff() {
  const faults = [];
  for (const sheet of document.querySelectorAll(".day-sheet")) {
    const week = sheet.classList.contains("week");
    for (const row of sheet.querySelectorAll(".ticks tbody tr")) {
      const said = row.querySelector(".many-words").textContent.match(/^(\d*)([¼½¾]?) portions?/);
      const cells = [...row.querySelectorAll("td")].map((cell) =>
        [...cell.querySelectorAll(".tick")].reduce((sum, tick) => sum + Number(tick.dataset.quarters), 0),
      );
      if (!said) continue; // water
      const wanted = 4 * Number(said[1] || 0) + (["", "¼", "½", "¾"].indexOf(said[2]) || 0);
      const all = cells.reduce((sum, cell) => sum + cell, 0);
      const off = week ? cells.some((cell) => Math.abs(cell - wanted) > 0.01) : Math.abs(all - wanted) > 0.01;
      if (off) faults.push(`${row.querySelector("th").textContent}: boxes ${cells.join(" + ")} quarters, ${wanted} said`);
      for (const tick of row.querySelectorAll(".tick")) {
        const [own, cell] = [tick.getBoundingClientRect(), tick.closest("td").getBoundingClientRect()];
        if (own.right > cell.right + 1 || own.bottom > cell.bottom + 1) faults.push(`a box of ${row.querySelector("th").textContent} sticks out`);
      }
    }
    const shapes = [...sheet.querySelectorAll(".ticks tbody tr")].map((row) => row.querySelector(".tick path")?.getAttribute("d"));
    if (new Set(shapes).size !== shapes.length) faults.push("two groups have boxes of one shape");
  }
  return faults;
}

/** Sheets of a fold-out that do not print at life size; runs in the page, as printed. */
function notLifeSize() {
  return [...document.querySelectorAll("svg.life")].flatMap((sheet, at) => {
    const mm = (sheet.getBoundingClientRect().width / 96) * 25.4;
    const wanted = sheet.viewBox.baseVal.width;
    return Math.abs(mm - wanted) > 0.2 ? [`sheet ${at + 1} is ${mm.toFixed(1)} mm wide, ${wanted.toFixed(1)} drawn`] : [];
  });
}

/** A quiz that gives its answer away, or cannot be answered without seeing; runs in the page. */
function unfairQuiz() {
  return [...document.querySelectorAll(".guess")].flatMap((guess) => {
    const answer = guess.nextElementSibling;
    const told = [...guess.querySelectorAll(".told li")].map((line) => line.textContent);
    const faults = [];
    for (const row of answer.querySelectorAll(".portioning tbody tr")) {
      const [name, size] = [row.querySelector("th").textContent, row.querySelector("td").textContent];
      if (size && told.concat(guess.querySelector("desc").textContent).some((line) => line.includes(` ${size}`))) faults.push(`the words give away ${name}: ${size}`);
      if (!told.some((line) => line.startsWith(`${name}:`))) faults.push(`${name} cannot be guessed without seeing it`);
    }
    return faults;
  });
}

/** Contents that do not lead to their dish and back, or name another page; runs in the page. */
function contentsOff() {
  const dishes = [...document.querySelectorAll("article.dish[id]")];
  const covers = document.querySelectorAll(".cover:not(.short)").length;
  if (!covers) return [];
  const faults = [];
  [...document.querySelectorAll(".contents li")].forEach((entry, at) => {
    const dish = document.querySelector(entry.querySelector("a").getAttribute("href"));
    const said = entry.querySelector(".at")?.textContent;
    if (dish !== dishes[at]) faults.push(`entry ${at + 1} leads elsewhere`);
    if (said && said !== `page ${covers + at + 1}`) faults.push(`entry ${at + 1} says ${said}`);
    const back = document.querySelector(dish.querySelector(".back a").getAttribute("href"));
    if (!back?.contains(entry)) faults.push(`dish ${at + 1} does not lead back to its entry`);
  });
  return faults;
}

/** Elements that stick out sideways; runs in the page. */
function sideways() {
  const root = document.documentElement;
  return root.scrollWidth > root.clientWidth + 1
    ? [`scrolls sideways: ${root.scrollWidth} px in ${root.clientWidth} px`]
    : [];
}

/** Least size of a label on a screen and in print. */
const LEAST_PX = 11;
const LEAST_PT = 7.5;

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

  const { faults: labelFaults, labels, drawings } = await page.evaluate(measureLabels, LEAST_PX);
  faults.push(...labelFaults);
  faults.push(...(await page.evaluate(contradictions)));
  faults.push(...(await page.evaluate(boxesOff)));
  faults.push(...(await page.evaluate(unfairQuiz)));
  faults.push(...(await page.evaluate(contentsOff)));
  for (const width of [768, 1280]) {
    await page.setViewportSize({ width, height: 900 });
    faults.push(...(await page.evaluate(measureLabels, LEAST_PX)).faults.map((f) => `${width} px: ${f}`));
    faults.push(...(await page.evaluate(sideways)).map((f) => `${width} px: ${f}`));
  }
  // As printed: the width of the sheet between its margins.
  const room = await page.evaluate(printRoom);
  await page.setViewportSize({ width: Math.floor(room.width), height: 1000 });
  await page.emulateMedia({ media: "print" });
  faults.push(...(await page.evaluate(smallWords, LEAST_PT / 0.75)).map((f) => `print: ${f}`));
  faults.push(...(await page.evaluate(sideways)).map((f) => `print: ${f}`));
  faults.push(...(await page.evaluate(nearlyEmpty, room.height)).map((f) => `print: ${f}`));
  faults.push(...(await page.evaluate(measureLabels, LEAST_PT / 0.75)).faults.map((f) => `print: ${f}`));
  faults.push(...(await page.evaluate(boxesOff)).map((f) => `print: ${f}`));
  faults.push(...(await page.evaluate(notLifeSize)));
  await page.emulateMedia({ media: null });
  await page.setViewportSize({ width: 1100, height: 900 });
  await shot(page, "light");

  const sheets = await page.evaluate(() => ({
    large: document.documentElement.classList.contains("large"),
    dishes: document.querySelectorAll(".dish").length,
    covers: document.querySelectorAll(".cover:not(.short)").length,
    many: document.querySelector(".many") !== null,
    report: document.querySelector("table.report, table.every") !== null,
  }));
  const pdf = await page.pdf({ preferCSSPageSize: true, ...(shots && { path: path.join(shots, `${name}.pdf`) }) });
  const printed = pageCount(pdf);
  // Large print takes what it needs, two pages a dish at most; a long contents list runs on.
  // Days, weeks, clients and menus of sixty items take two pages at most.
  // Three dishes or four take two, plates and figures.
  const most = sheets.report || sheets.many ? 2 : sheets.large ? sheets.dishes * 2 : sheets.dishes;
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
  faults.push(...(await page.evaluate(measureLabels, LEAST_PX)).faults.map((f) => `360 px: ${f}`));
  await shot(page, "360");
  await page.setViewportSize({ width: 1100, height: 900 });
  await page.addStyleTag({ content: "html { font-size: 200% !important; }" });
  faults.push(...(await page.evaluate(sideways)).map((f) => `200 % text: ${f}`));
  await shot(page, "200");
  await context.close();
  return { faults: [...new Set(faults)], labels, drawings, printed };
}

/** What is wrong with a drawing that stands alone; runs in it. */
function drawingFaults(least) {
  const faults = [];
  const root = document.documentElement;
  const ground = root.querySelector("rect.paper");
  if (ground?.getAttribute("fill") !== "#ffffff" && ground?.getAttribute("fill") !== "#fff") faults.push("its ground is not white");
  const texts = [...root.querySelectorAll("text")].map((t) => ({ words: t.textContent, box: t.getBoundingClientRect() }));
  const apart = (a, b) => a.right <= b.left + 2 || b.right <= a.left + 2 || a.bottom <= b.top + 4 || b.bottom <= a.top + 4;
  texts.forEach((one, at) => {
    const { left, right, bottom } = one.box;
    const whole = root.getBoundingClientRect();
    if (left < whole.left - 1 || right > whole.right + 1 || bottom > whole.bottom + 1) faults.push(`"${one.words}" sticks out`);
    for (const other of texts.slice(at + 1)) if (!apart(one.box, other.box)) faults.push(`"${one.words}" overlaps "${other.words}"`);
  });
  // Numbers on a drawing stand again, with a name, in its key.
  const numbered = document.URL.includes("/life");
  for (const { words } of texts.filter((t) => numbered && /^\d+$/.test(t.words))) {
    if (!texts.some((t) => t.words.startsWith(`${words}  `))) faults.push(`number ${words} has no entry in the key`);
  }
  const small = [...root.querySelectorAll("text")].filter((t) => parseFloat(t.getAttribute("font-size")) * Math.hypot(t.getScreenCTM().b, t.getScreenCTM().d) < least - 0.1);
  if (small.length) faults.push(`${small.length} lines are below ${least} px, such as "${small[0].textContent}"`);
  return { faults, labels: texts.length, drawings: 1, printed: 0 };
}

/** A card at a phone's width; any other drawing of plates at 700 px a plate. */
async function checkDrawing(browser, name) {
  const page = await browser.newPage({ viewport: { width: 360, height: 640 } });
  const svg = await readFile(path.join(folder, name), "utf8");
  const [wide, high] = svg.match(/viewBox="0 0 ([\d.]+) ([\d.]+)"/).slice(1).map(Number);
  const width = name.startsWith("card") ? 360 : Math.round(name.startsWith("life") ? (wide / 25.4) * 96 : (wide / 330) * 700);
  await page.setViewportSize({ width, height: Math.ceil((high / wide) * width) });
  await page.goto(pathToFileURL(path.resolve(folder, name)).href);
  await page.evaluate((w) => { document.documentElement.setAttribute("width", w); document.documentElement.removeAttribute("height"); }, width);
  const found = await page.evaluate(drawingFaults, LEAST_PX);
  if (shots) await page.screenshot({ path: path.join(shots, `${name}.png`) });
  await page.close();
  return found;
}

const browser = await chromium.launch({
  executablePath,
  args: ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--no-first-run"],
});
let failed = 0;
let [allLabels, allDrawings] = [0, 0];
for (const name of files) {
  const { faults, labels, drawings, printed } = await (name.endsWith(".svg") ? checkDrawing : check)(browser, name);
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
