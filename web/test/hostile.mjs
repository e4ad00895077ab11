// Other people's text stays text: lines, links, files.

import { mkdtemp, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import { Phone, holds, kept, log, show } from "./browser.mjs";

const MARKUP = `"><script>document.title='ran'</script><img src=x onerror="document.title='ran'">{{7*7}}`;
const LINES = [
  MARKUP,
  `rice ${MARKUP}`,
  `<svg onload=alert(1)> chicken breast 6 oz`,
  `javascript:alert(1) with broccoli`,
  `שקשוקה עם לחם \u202e\u2066خبز مع زيتون`,
  `👩\u200d🍳 Ż\u0335\u0335\u0335ebra 🍕 &amp; ’co’ rice`,
  `rice\u0000\u0001\u001b[31m beans`,
  `${"Donaudampfschifffahrtsgesellschaft".repeat(60)} rice`,
  `${"rice, ".repeat(600)}`,
  `__proto__ constructor toString rice`,
  `9999999999999999999999 cups of rice`,
  `-1 cup rice; 1e400 g beans; NaN oz salmon`,
];

const untouched = (page) =>
  page.evaluate(() => ({
    title: document.title,
    own: document.querySelectorAll("main script, main img, main iframe, main object, main embed, main link").length,
    handlers: [...document.querySelectorAll("main *")].filter((e) => [...e.attributes].some((a) => a.name.startsWith("on"))).length,
    wide: document.documentElement.scrollWidth - document.documentElement.clientWidth,
  }));

async function harmless(page, what) {
  const { title, own, handlers, wide } = await untouched(page);
  holds(title === "trencher" && own === 0 && handlers === 0, `${what}: ${title}, ${own} elements, ${handlers} handlers`);
  holds(wide <= 1, `${what}: scrolls sideways by ${wide} px`);
}

async function say(page, line) {
  await page.$eval("#line", (field, value) => (field.value = value), line);
  await page.$eval("#ask", (form) => form.requestSubmit());
  await page.waitForSelector("#plate h2, #plate .error");
}

/** A dish in a fragment, as the page writes it. */
const fragment = (dish) => `#dish=${Buffer.from(typeof dish === "string" ? dish : JSON.stringify(dish)).toString("base64url")}`;

export async function hostileTextStaysText({ dist }) {
  const phone = await Phone.open(dist);
  const page = await phone.page();
  for (const line of LINES) {
    await say(page, line);
    await harmless(page, line.slice(0, 60));
  }
  const component = [MARKUP, MARKUP, "58130011", [10, 20, 30], "weighed", "sure"];
  const links = [
    fragment({ name: MARKUP, kind: MARKUP, components: [component] }),
    fragment({ name: "x", components: [["rice", "rice", "58130011", [1e9, 1e9, 1e9], "weighed", "sure"]] }),
    fragment({ name: "x", components: [["rice", "rice", "58130011", [30, 20, 10], "weighed", "sure"]] }),
    fragment({ name: "x", components: Array.from({ length: 5000 }, () => component) }),
    fragment({ __proto__: null, components: [] }),
    fragment('{"components": [[[[[[[[[['),
    "#dish=%00%ff",
    `#dish=${"A".repeat(40_000)}`,
  ];
  for (const link of links) {
    const other = await phone.page({ address: link });
    await harmless(other, link.slice(0, 40));
    const shown = await other.$eval("body", (body) => body.innerText);
    holds(/cannot be read|holds no dish|is none|“?>|"><script>/.test(shown) || shown.includes("On the plate"), `${link.slice(0, 40)}: ${shown.slice(0, 200)}`);
    await other.close();
  }
  // The refusals above are answers; what the console said of them would be a fault.
  holds(phone.faults.length === 0, phone.faults.join("; "));
  holds(phone.foreign.length === 0, `asked elsewhere: ${phone.foreign[0]}`);
  await phone.close();
  return `${LINES.length} lines and ${links.length} links: nothing ran, nothing was asked, nothing scrolls sideways`;
}

export async function hostileFilesAreRefusedWhole({ dist }) {
  const phone = await Phone.open(dist);
  const page = await phone.page();
  await show(page, "cobb salad");
  await log(page);
  const before = JSON.stringify(await kept(page));
  const record = (await kept(page)).records[0];
  const file = (entries, diners = [], more = {}) => JSON.stringify({ version: 1, diners, entries, ...more });
  const folder = await mkdtemp(path.join(tmpdir(), "files-"));
  const bad = {
    empty: "",
    list: "[1,2,3]",
    later: '{"version": 99, "diners": [], "entries": []}',
    more: file([], [], { else: 1 }),
    negative: file([{ ...record, uid: "a", entry: { ...record.entry, share: -1 } }]),
    control: file([{ ...record, uid: "b", entry: { ...record.entry, dish: "a\u0007b" } }]),
    uid: file([{ ...record, uid: "../../x" }]),
    year: file([{ ...record, uid: "c", entry: { ...record.entry, at: { ...record.entry.at, date: "9999-01-01" } } }]),
    name: file([], [{ name: "/etc/passwd" }]),
    deep: `${"[".repeat(100_000)}`,
    bytes: Buffer.from([0xff, 0xfe, 0x00, 0x80]),
  };
  await page.click("#to-day");
  for (const [name, content] of Object.entries(bad)) {
    const where = path.join(folder, `${name}.json`);
    await writeFile(where, content);
    await page.evaluate(() => (document.querySelector("#told").textContent = ""));
    await (await page.$("#import")).uploadFile(where);
    await page.waitForFunction(() => document.querySelector("#told").textContent.startsWith("Nothing was brought in"), { timeout: 10_000 }).catch(() => {
      throw new Error(`${name} was not refused`);
    });
    holds(JSON.stringify(await kept(page)) === before, `${name} changed something`);
  }
  const name = "named.json";
  await writeFile(path.join(folder, name), file([{ ...record, uid: "d", entry: { ...record.entry, dish: MARKUP } }], []));
  await (await page.$("#import")).uploadFile(path.join(folder, name));
  await page.waitForFunction(() => document.querySelectorAll(".entries > li").length === 2);
  await harmless(page, "a dish of a file");
  holds(phone.faults.length === 0, phone.faults.join("; "));
  await phone.close();
  return `${Object.keys(bad).length} files refused whole; markup in a dish's name stays text`;
}
