// Nothing that was acknowledged is lost: reloads, crashes, a dead battery, full storage, two tabs.

import { Phone, equal, holds, kept, log, press, ready, show, told } from "./browser.mjs";

const TIMES = 12;
const DEATHS = 4;

/** Begins to log and does not wait; the page says in `acknowledged` what it was told is kept. */
const begin = (page, number) =>
  page.evaluate(async (number) => {
    const [store, day, { request }, { uid }] = await Promise.all(["./store.js", "./day_state.js", "./core.js", "./eat.js"].map((file) => import(file)));
    const setting = day.setting();
    const { kept } = request({ ask: "person", now: setting.now, form: { name: "Me", energy: "2000 kcal" } });
    const log = async (at) => {
      const answer = request({ ask: "eat", text: "cobb salad", changes: [], setting: { ...setting, diner: kept.diner }, uid: uid(), share: 1 });
      await store.keep(answer.record, kept.diner);
      console.info(`kept ${number}-${at} ${answer.record.uid}`);
    };
    void (async () => {
      for (let at = 0; at < 40; at++) await log(at);
    })();
  }, number);

/** Collects what the page said is kept, as it says it. */
function listen(page, acknowledged) {
  page.on("console", (message) => {
    const [word, , uid] = message.text().split(" ");
    if (word === "kept") acknowledged.add(uid);
  });
}

async function allThere(page, acknowledged, what) {
  const there = new Set((await kept(page)).records.map((record) => record.uid));
  const lost = [...acknowledged].filter((uid) => !there.has(uid));
  holds(lost.length === 0, `${what}: ${lost.length} of ${acknowledged.size} acknowledged entries are lost`);
  return there.size;
}

async function broken(dist, how, times) {
  const phone = await Phone.open(dist, { worker: false });
  const acknowledged = new Set();
  for (let time = 0; time < times; time++) {
    const page = await phone.page();
    if (time === 0) await phone.kept(page);
    listen(page, acknowledged);
    await begin(page, time);
    // Sooner or later in the middle of it.
    await new Promise((done) => setTimeout(done, 20 + (time * 37) % 300));
    await how(phone, page);
  }
  const page = await phone.page();
  const there = await allThere(page, acknowledged, how.name);
  holds(acknowledged.size > times, `${acknowledged.size} acknowledged entries say little`);
  await show(page, "cobb salad");
  await log(page);
  await phone.close();
  return `${times} times, ${acknowledged.size} acknowledged, ${there} there`;
}

export async function reloadInTheMiddleOfLogging({ dist }) {
  return broken(dist, async function reload(_phone, page) {
    await page.reload();
    await ready(page);
    await page.close();
  }, TIMES);
}

export async function crashOfTheTabInTheMiddleOfLogging({ dist }) {
  return broken(dist, async function crash(phone, page) {
    const session = await page.createCDPSession();
    const gone = new Promise((done) => page.once("error", done));
    session.send("Page.crash").catch(() => {});
    await gone;
    await page.close().catch(() => {});
    await phone.reconnect();
  }, TIMES);
}

export async function deathOfTheBrowserInTheMiddleOfLogging({ dist }) {
  return broken(dist, async function death(phone) {
    await phone.die();
    await phone.start();
  }, DEATHS);
}

export async function fullStorage({ dist }) {
  const phone = await Phone.open(dist);
  let page = await phone.page();
  await show(page, "cobb salad");
  await log(page);
  const before = await kept(page);
  // The browser remembers for a while how much room there was: it is started anew.
  await phone.browser.close();
  await phone.start();
  page = await phone.page({ bare: true, address: "icon.svg" });
  const session = await page.createCDPSession();
  const origin = phone.base.slice(0, -1);
  await session.send("Storage.overrideQuotaForOrigin", { origin, quotaSize: 1 });
  await page.goto(phone.base);
  await ready(page);
  await show(page, "fish and chips");
  const tries = 5;
  for (let time = 0; time < tries; time++) {
    await page.evaluate(() => (document.querySelector("#told").textContent = ""));
    await press(page, "I ate this");
    await press(page, "Log it", "dialog");
    await told(page, "This phone’s storage is full");
    equal(await kept(page), before, "what was kept before");
  }
  await session.send("Storage.overrideQuotaForOrigin", { origin });
  await log(page);
  holds((await kept(page)).records.length === before.records.length + 1, "with room it is kept");
  await phone.close();
  return `${tries} times: said so, nothing lost, nothing half kept; logged once there was room`;
}

export async function twoTabsAtOnce({ dist }) {
  const phone = await Phone.open(dist);
  const acknowledged = new Set();
  const tabs = [await phone.page(), await phone.page()];
  for (const [at, tab] of tabs.entries()) {
    listen(tab, acknowledged);
    await begin(tab, at);
  }
  for (let tries = 0; tries < 300 && acknowledged.size < 80; tries++) await new Promise((done) => setTimeout(done, 100));
  holds(acknowledged.size === 80, `${acknowledged.size} of 80 kept`);
  holds((await allThere(tabs[0], acknowledged, "two tabs")) === 80, "80 entries");
  // Each tab shows what the other one logged.
  await tabs[1].bringToFront();
  await tabs[1].click("#to-day");
  await tabs[1].waitForFunction(() => document.querySelectorAll(".entries > li").length === 80);
  await tabs[0].bringToFront();
  await show(tabs[0], "fish and chips");
  await log(tabs[0]);
  await tabs[1].bringToFront();
  await tabs[1].waitForFunction(() => document.querySelectorAll(".entries > li").length === 81);
  // One deletes everything while the other is open.
  await press(tabs[1], "Delete everything");
  await press(tabs[1], "Delete everything", "dialog");
  await told(tabs[1], "Everything is deleted");
  await tabs[0].bringToFront();
  await show(tabs[0], "fish and chips");
  await log(tabs[0]);
  holds((await kept(tabs[0])).records.length === 1, "one entry after everything was deleted");
  await phone.close();
  return "2 tabs, 40 entries each at once: 80 there; each sees the other's";
}
