// The whole path of a person at a table, with the network away after the first load.

import { mkdtemp, readdir, readFile, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import { Phone, equal, holds, kept, log, press, ready, show, told } from "./browser.mjs";

const text = (page, selector) => page.$eval(selector, (element) => element.textContent);
const energy = async (page) => Number((await text(page, ".lead")).match(/([\d,]+) kcal \(80/)[1].replaceAll(",", ""));

async function atTheTable(page, shot) {
  await show(page, "bacon cheeseburger with fries");
  const whole = await energy(page);
  holds(whole > 600, `a burger with fries of ${whole} kcal`);
  holds((await page.$$("#plate .scene .num")).length >= 5, "the foods are numbered");
  await shot("plate");
  // A tap on a food in the drawing opens it.
  await page.$$eval("#plate .scene .num", (numbers) => numbers.at(-1).click());
  await page.waitForSelector(".panel");
  await shot("panel");
  const choose = async (how) => {
    const before = await text(page, ".lead");
    await page.$eval(`.panel input[value="${how}"]`, (input) => input.click());
    await page.waitForFunction((was) => document.querySelector(".lead").textContent !== was, {}, before);
    return energy(page);
  };
  const half = await choose("half");
  const little = await choose("little");
  const none = await choose("none");
  holds(whole > half && half > little && little > none, `${whole}, ${half}, ${little}, ${none} kcal`);
  await page.$eval('.panel input[value="box"]', (input) => input.click());
  await page.waitForFunction(() => document.querySelector(".less strong")?.textContent === "in the box");
  holds((await energy(page)) === none, "what is in the box is not eaten");
  await page.$eval('.panel input[value="all"]', (input) => input.click());
  await page.type('.panel input[id^="amount"]', "10 oz");
  await press(page, "Set", ".panel");
  const more = await energy(page);
  holds(more > whole, `10 oz of fries: ${more} kcal`);
  await page.type('.panel input[type="search"]', "side salad");
  await page.waitForFunction(() => document.querySelectorAll(".panel .offered button").length > 0);
  await page.$eval(".panel .offered button", (button) => button.click());
  holds((await energy(page)) < more, "another food, other figures");
}

async function sizesAndAsks(page, shot) {
  await show(page, "bacon cheeseburger with fries");
  const whole = await energy(page);
  await press(page, "Right-size it");
  await page.waitForSelector("#fit table");
  await shot("fit");
  await press(page, "Take these amounts");
  const sized = await energy(page);
  holds(sized < whole && sized > 300, `right-sized from ${whole} to ${sized} kcal`);
  await press(page, "Ask the kitchen");
  await page.waitForSelector("dialog .sentences li");
  await shot("kitchen", false);
  holds(/\?$/.test(await text(page, "dialog .sentences li")), "sentences to say");
  await press(page, "Close", "dialog");
  await press(page, "Compare with another");
  await show(page, "cobb salad");
  await page.waitForSelector("#beside .sides figure:nth-child(2) svg");
  const scales = await page.$$eval("#beside svg.trencher", (all) => all.map((svg) => svg.dataset.unitsPerCm));
  holds(scales.length === 2 && scales[0] === scales[1], `one scale: ${scales}`);
  await shot("beside");
  const swiped = await page.$eval("#beside .sides", (sides) => {
    sides.scrollTo({ left: sides.scrollWidth, behavior: "instant" });
    return sides.scrollLeft;
  });
  holds(swiped > 100, "a swipe shows the other dish");
  await press(page, "End the comparison");
  holds((await page.$("#beside *")) === null, "the comparison is over");
}

async function link(page, phone) {
  await show(page, "fish and chips");
  await press(page, "Share link");
  const address = await page.$eval("#link", (field) => field.value);
  await press(page, "Close", "dialog");
  holds(address.startsWith(`${phone.base}#dish=`), address.slice(0, 60));
  const first = await page.$$eval(".component", (all) => all.map((one) => one.textContent));
  const other = await phone.page({ address: address.slice(phone.base.length) });
  await other.waitForSelector("#plate h2");
  holds((await text(other, "#plate h2")) === "Fish and chips", "the dish of the link");
  equal(await other.$$eval(".component", (all) => all.map((one) => one.textContent)), first, "components and amounts of a link");
  await other.close();
}

async function person(page, shot) {
  await page.click("#to-day");
  const fill = async (fields) => {
    await page.$eval("details.person", (details) => (details.open = true));
    for (const [name, value] of Object.entries(fields)) {
      const field = await page.$(`#person-${name}`);
      await field.evaluate((element, v) => (element.value = v), value);
    }
    await press(page, "Work out my day", "details.person");
  };
  const answer = () => text(page, "#person-told");
  // The rails of `trencher diner add`: nothing is kept, and no figure is named to aim for.
  const young = { name: "Kim", sex: "female", age: "16", height: "5 ft 6 in", weight: "120 lb", activity: "active" };
  await fill(young);
  holds((await answer()).includes("under 19") && (await answer()).includes("Nobody was added"), await answer());
  await fill({ ...young, age: "34", weight: "90 lb" });
  holds(/doctor/.test(await answer()), await answer());
  await page.$eval('input[name="pregnant_or_nursing"]', (box) => box.click());
  await fill({ ...young, age: "34", weight: "150 lb" });
  holds(/pregnancy/.test(await answer()), await answer());
  await page.$eval('input[name="pregnant_or_nursing"]', (box) => box.click());
  await fill({ name: "Kim", sex: "", age: "", height: "", weight: "", activity: "", energy: "900 kcal" });
  holds(/below 1,200 kcal/.test(await answer()), await answer());
  holds((await kept(page)).diners.length === 0, "refused, and kept all the same");
  await shot("refused");
  await fill({ ...young, name: "Ana", age: "35", weight: "150 lb", activity: "low active", energy: "" });
  await told(page, "Ana: ");
  const { diners } = await kept(page);
  holds(diners.length === 1 && diners[0].name === "Ana", "Ana is kept");
}

async function myDay(page, shot) {
  await page.click("#to-plate");
  await show(page, "yogurt and granola bowl");
  await log(page);
  await show(page, "pad thai with shrimp");
  holds(/lunch|dinner|breakfast|snack/.test(await text(page, ".lead")), "held against the meal");
  await press(page, "Size to what is left");
  await page.waitForSelector("#fit");
  await press(page, "Size to what is left");
  await log(page);
  await page.click("#to-day");
  holds((await page.$$(".entries > li")).length === 2, "two entries");
  await shot("day");
  const left = async () => Number((await text(page, "#day .lead p")).match(/About ([\d,]+) of/)[1].replaceAll(",", ""));
  const before = await left();
  await page.$$eval('.entries button[aria-label^="Change"]', (buttons) => buttons.at(-1).click());
  await page.waitForSelector("#edit-share");
  await page.$eval("#edit-share", (field) => (field.value = "0.5"));
  await press(page, "Keep", "dialog");
  await told(page, "Changed");
  holds((await left()) > before, "half of it leaves more");
  await page.$$eval('.entries button[aria-label^="Remove"]', (buttons) => buttons.at(-1).click());
  await told(page, "Removed");
  holds((await page.$$(".entries > li")).length === 1, "one entry is left");
  await page.$eval(".history", (details) => (details.open = true));
  holds((await page.$$(".history tbody tr")).length === 14, "two weeks");
  await shot("history");
}

async function inAndOut(page) {
  const folder = await mkdtemp(path.join(tmpdir(), "days-"));
  const session = await page.createCDPSession();
  await session.send("Browser.setDownloadBehavior", { behavior: "allow", downloadPath: folder });
  await press(page, "Save my days as a file");
  let name;
  for (let tries = 0; tries < 100 && !name; tries++) {
    await new Promise((done) => setTimeout(done, 100));
    name = (await readdir(folder)).find((file) => file.endsWith(".json"));
  }
  const saved = await readFile(path.join(folder, name), "utf8");
  const before = await kept(page);
  equal(JSON.parse(saved).entries, before.records, "the file holds everything, what was taken back among it");
  await press(page, "Delete everything");
  await press(page, "Delete everything", "dialog");
  await told(page, "Everything is deleted");
  holds((await kept(page)).records.length === 0, "everything is deleted");
  const bring = async (file) => {
    const input = await page.$("#import");
    await input.uploadFile(file);
  };
  await bring(path.join(folder, name));
  await told(page, "2 entries brought in");
  equal(await kept(page), before, "brought in again");
  await bring(path.join(folder, name));
  await told(page, "0 entries brought in; 2 here already");
  const damaged = path.join(folder, "damaged.json");
  await writeFile(damaged, saved.slice(0, -40));
  await bring(damaged);
  await told(page, "Nothing was brought in");
  equal(await kept(page), before, "a damaged file changes nothing");
}

export async function wholePathWithoutANetwork({ dist, shots }) {
  const phone = await Phone.open(dist);
  let page = await phone.page();
  await phone.kept(page);
  await phone.goOffline();
  await page.close();
  page = await phone.page();
  const shot = async (name, fullPage = true) => shots && page.screenshot({ path: path.join(shots, `${name}.png`), fullPage });
  for (const part of [atTheTable, sizesAndAsks, (p) => link(p, phone), person, myDay, inAndOut]) await part(page, shot);
  holds(phone.foreign.length === 0, `asked elsewhere: ${phone.foreign[0]}`);
  holds(phone.faults.length === 0, phone.faults.join("; "));
  await phone.close();
  return "typed, changed, sized, asked, compared, shared, refused, logged, edited, saved and brought back, offline; no request elsewhere";
}

export async function measuresByLanguage({ dist }) {
  const seen = {};
  for (const lang of ["en-US", "de-DE", "en-GB"]) {
    const phone = await Phone.open(dist, { lang });
    const page = await phone.page();
    await show(page, "8 oz ribeye with mashed potatoes and green beans");
    seen[lang] = await page.$$eval(".component", (all) => all.map((one) => one.textContent).join(" "));
    await phone.close();
  }
  holds(/\d oz/.test(seen["en-US"]) && !/\d g\b/.test(seen["en-US"]), seen["en-US"]);
  for (const lang of ["de-DE", "en-GB"]) holds(/\d g\b/.test(seen[lang]) && !/\boz\b|\bcups?\b/.test(seen[lang]), seen[lang]);
  return "ounces and cups for en-US, grams for de-DE and en-GB";
}

export async function newVersionWithoutLosingTheDay({ dist }) {
  const { cp, mkdtemp: temp, rm } = await import("node:fs/promises");
  const copy = await temp(path.join(tmpdir(), "dist-"));
  await cp(dist, copy, { recursive: true });
  const phone = await Phone.open(copy);
  const page = await phone.page();
  await phone.kept(page);
  await show(page, "cobb salad");
  await log(page);
  const before = await kept(page);
  const worker = await readFile(path.join(copy, "sw.js"), "utf8");
  await writeFile(path.join(copy, "sw.js"), worker.replace(/VERSION = "\w+"/, 'VERSION = "next"'));
  const html = await readFile(path.join(copy, "index.html"), "utf8");
  await writeFile(path.join(copy, "index.html"), html.replace("<title>trencher</title>", "<title>trencher, next</title>"));
  await page.evaluate(async () => (await navigator.serviceWorker.getRegistration()).update());
  await page.waitForSelector("#update:not([hidden])", { timeout: 60_000 });
  holds((await page.title()) === "trencher", "nobody is interrupted");
  await page.click("#update");
  await page.waitForFunction(() => document.title === "trencher, next", { timeout: 60_000 });
  await ready(page);
  await page.waitForSelector("#plate h2");
  holds((await text(page, "#plate h2")) === "Cobb salad", "the dish at hand is still there");
  equal(await kept(page), before, "the day after the update");
  const caches = await page.evaluate(async () => (await globalThis.caches.keys()).length);
  holds(caches === 1, `${caches} versions kept`);
  await phone.close();
  await rm(copy, { recursive: true, force: true });
  return "a new version is offered and taken; the day and the dish at hand stay";
}
