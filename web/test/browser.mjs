// A phone of 360 x 740 px in Chromium, a server that can be taken away, and an eye on every
// request of the page and of its worker.

import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import puppeteer from "puppeteer-core";
import { serve } from "../serve.mjs";

const PHONE = { width: 360, height: 740, deviceScaleFactor: 2, isMobile: true, hasTouch: true };
/** Requests of the browser itself, for pages of its own. */
const OWN = /^(chrome|chrome-extension|devtools|about|data|blob):/;

export const chromium = process.env.CHROMIUM ?? "/usr/bin/chromium";

export class Phone {
  /**
   * A browser on a folder of built files; `profile` is one to open again. `worker`: the page's
   * worker is watched too; one that is watched does not come back from a crash.
   */
  static async open(dist, { profile, lang = "en-US", port = 0, worker = true } = {}) {
    const phone = new Phone();
    phone.dist = dist;
    phone.server = await serve(dist, port);
    phone.port = phone.server.address().port;
    phone.base = `http://localhost:${phone.port}/`;
    phone.profile = profile ?? (await mkdtemp(path.join(tmpdir(), "phone-")));
    phone.lang = lang;
    phone.worker = worker;
    phone.foreign = [];
    phone.faults = [];
    await phone.start();
    return phone;
  }

  async start() {
    this.browser = await puppeteer.launch({
      executablePath: chromium,
      userDataDir: this.profile,
      targetFilter: (target) => this.worker || target.type() !== "service_worker",
      env: { ...process.env, LANGUAGE: this.lang, LC_ALL: "C.UTF-8" },
      args: [
        "--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking", `--lang=${this.lang}`, `--accept-lang=${this.lang}`,
        // Whatever asks for another host gets no answer, and is seen here.
        "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE localhost",
      ],
    });
    this.browser.on("targetcreated", async (target) => {
      if (target.type() !== "service_worker") return;
      try {
        const session = await target.createCDPSession();
        await session.send("Network.enable");
        session.on("Network.requestWillBeSent", ({ request }) => this.seen(request.url));
      } catch {
        // Gone before it could be watched; what it asks on behalf of a page is seen there.
      }
    });
  }

  seen(url) {
    if (!url.startsWith(this.base) && !OWN.test(url)) this.foreign.push(url);
  }

  /** A page that is watched; ready to be used unless `bare`. */
  async page({ address = "", bare = false, bypass = false } = {}) {
    const page = await this.browser.newPage();
    await page.setViewport(PHONE);
    if (bypass) await page.setBypassCSP(true);
    page.on("request", (request) => this.seen(request.url()));
    page.on("console", (message) => ["error", "warn"].includes(message.type()) && this.faults.push(`console: ${message.text()}`));
    page.on("pageerror", (error) => this.faults.push(`script: ${error.message}`));
    page.on("dialog", (dialog) => {
      this.faults.push(`dialog: ${dialog.message()}`);
      dialog.dismiss();
    });
    await page.goto(this.base + address);
    if (!bare) await ready(page);
    return page;
  }

  /** Waits until the page is kept on the phone and its worker answers for it. */
  async kept(page) {
    await page.evaluate(async () => {
      await navigator.serviceWorker.ready;
      if (!navigator.serviceWorker.controller) {
        await new Promise((done) => navigator.serviceWorker.addEventListener("controllerchange", done, { once: true }));
      }
    });
  }

  /** Takes the server away: there is no network any more. */
  async goOffline() {
    this.server.closeAllConnections();
    await new Promise((done) => this.server.close(done));
    this.server = null;
  }

  async goOnline(dist = this.dist) {
    this.server = await serve(dist, this.port);
  }

  /**
   * Lets go of the browser and takes it up again: a worker that was watched when its process
   * crashed waits for whoever watched it.
   */
  async reconnect() {
    const browserWSEndpoint = this.browser.wsEndpoint();
    const process = this.browser.process();
    await this.browser.disconnect();
    this.browser = await puppeteer.connect({ browserWSEndpoint });
    this.browser.process = () => process;
  }

  /** The browser dies as a phone's battery does. */
  async die() {
    const process = this.browser.process();
    const gone = new Promise((done) => process.once("exit", done));
    process.kill("SIGKILL");
    await gone;
  }

  async close({ keep = false } = {}) {
    await this.browser.close().catch(() => {});
    if (this.server) await this.goOffline();
    if (!keep) await rm(this.profile, { recursive: true, force: true, maxRetries: 5 });
  }
}

export const ready = (page) => page.waitForSelector("html[data-ready]", { timeout: 60_000 });

/** Asks the page's engine, as the page does. */
export const request = (page, what) =>
  page.evaluate(async (asked) => {
    const [{ request }, day] = await Promise.all([import("./core.js"), import("./day_state.js")]);
    const { setting, ...rest } = asked;
    // `null`: a request that has none.
    return request(setting === null ? rest : { ...rest, setting: setting ?? day.setting() });
  }, what);

/** Types a dish and shows its plate. */
export async function show(page, line) {
  await page.$eval("#line", (field) => (field.value = ""));
  await page.type("#line", line);
  // What is shown of the last dish is no answer to this one.
  await page.$$eval("#plate h2, #plate .error", (shown) => shown.forEach((element) => element.classList.add("of-last")));
  await page.click('#ask button[type="submit"]');
  await page.waitForFunction(
    (text) => document.querySelector("#plate :is(h2, .error):not(.of-last)") && document.querySelector("#line").value === text,
    {},
    line,
  );
}

/** The button of this name, in `root`. */
export async function press(page, name, root = "body") {
  const button = await page.waitForSelector(`${root} ::-p-aria([name="${name}"][role="button"])`, { timeout: 10_000 });
  await button.evaluate((element) => element.scrollIntoView({ block: "center", behavior: "instant" }));
  await button.click();
}

/** What the page last said. */
export const told = (page, begins) =>
  page.waitForFunction((words) => document.querySelector("#told").textContent.startsWith(words), { timeout: 15_000 }, begins);

/** Logs the dish at hand as it is; resolves when the page says so. */
export async function log(page) {
  await page.evaluate(() => (document.querySelector("#told").textContent = ""));
  await press(page, "I ate this");
  await press(page, "Log it", "dialog");
  await told(page, "Logged");
}

/** Everything in the page's database. */
export const kept = (page) =>
  page.evaluate(async () => (await import("./store.js")).everything());

export function equal(one, other, what) {
  const [a, b] = [sorted(one), sorted(other)];
  if (a !== b) {
    let at = 0;
    while (a[at] === b[at]) at++;
    throw new Error(`${what}: …${a.slice(Math.max(0, at - 60), at + 80)}… is not …${b.slice(Math.max(0, at - 60), at + 80)}…`);
  }
}

const sorted = (value) =>
  JSON.stringify(value, (_key, v) =>
    v && typeof v === "object" && !Array.isArray(v) ? Object.fromEntries(Object.entries(v).sort(([a], [b]) => (a < b ? -1 : 1))) : v,
  ) ?? "nothing";

export function holds(truth, what) {
  if (!truth) throw new Error(what);
}
