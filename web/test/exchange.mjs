// The page's file is the command's, and back.

import { execFileSync } from "node:child_process";
import { mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { Phone, equal, holds, kept, log, press, request, show } from "./browser.mjs";

const runner = (program) => {
  const home = mkdtempSync(path.join(tmpdir(), "home-"));
  return (...args) => execFileSync(program, args, { encoding: "utf8", env: { ...process.env, TRENCHER_HOME: home, TZ: "Europe/Berlin" } });
};

const exported = async (page) => {
  const { diners, records, changes } = await kept(page);
  return (await request(page, { ask: "export", diners, records, changes, setting: null })).text;
};

export async function fromThePageToTheCommandAndBack({ dist, program }) {
  const trencher = runner(program);
  const phone = await Phone.open(dist);
  const page = await phone.page();
  for (const dish of ["cobb salad", "fish and chips", "12 fl oz cola", "two eggs and toast"]) {
    await show(page, dish);
    await log(page);
  }
  await page.click("#to-day");
  await page.$$eval('.entries button[aria-label^="Remove"]', (buttons) => buttons[0].click());
  await page.waitForFunction(() => document.querySelectorAll(".entries > li").length === 3);
  const saved = await exported(page);
  const file = path.join(mkdtempSync(path.join(tmpdir(), "days-")), "days.json");
  writeFileSync(file, saved);
  trencher("day", "import", file);
  const back = trencher("day", "export", "--format", "json");
  equal(JSON.parse(back), JSON.parse(saved), "what the command exports");
  holds(back === saved, "letter by letter");
  // An empty page takes the command's file and has the same.
  await page.click("#to-day");
  await press(page, "Delete everything");
  await press(page, "Delete everything", "dialog");
  await page.waitForFunction(() => document.querySelector("#told").textContent.startsWith("Everything"));
  writeFileSync(file, back);
  const input = await page.$("#import");
  await input.uploadFile(file);
  await page.waitForFunction(() => /4 entries brought in/.test(document.querySelector("#told").textContent));
  holds((await exported(page)) === saved, "the page's export after the way round");
  await phone.close();
  return "4 entries, one taken back: page, day import, day export, page: the same letters";
}

export async function whatACoachLogsComesToThePage({ dist, program }) {
  const trencher = runner(program);
  trencher("diner", "add", "Bo", "--sex", "male", "--born", "1980-02-29", "--height", "180 cm", "--weight", "82 kg", "--activity", "active", "--portions", "vegetables=5", "--meals", "lunch 40%, dinner 60%");
  trencher("day", "eat", "pad thai with shrimp", "--share", "1/3", "--meal", "lunch");
  trencher("day", "eat", "--item", "12 fl oz water", "--at", "yesterday 19:00");
  const text = trencher("day", "export", "--format", "json");
  const file = path.join(mkdtempSync(path.join(tmpdir(), "days-")), "days.json");
  writeFileSync(file, text);
  const phone = await Phone.open(dist);
  const page = await phone.page();
  await page.click("#to-day");
  await (await page.$("#import")).uploadFile(file);
  await page.waitForFunction(() => /2 entries brought in/.test(document.querySelector("#told").textContent));
  holds((await exported(page)) === text, "the page's export is the command's");
  await page.click("#to-plate");
  await show(page, "cobb salad");
  const assumed = await page.$eval("#plate", (element) => element.textContent);
  holds(/Shares are of Bo's day/.test(assumed), "held against the coach's plan");
  await phone.close();
  return "a diner with a coach's portions and meals, 2 entries: the same letters on the way back";
}
