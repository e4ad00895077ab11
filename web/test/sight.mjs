// For everybody: axe in light and dark, text at 200 %, keyboard alone, names for screen readers.

import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { Phone, holds, log, press, show } from "./browser.mjs";

const axe = await readFile(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

async function findings(page) {
  await page.evaluate(axe);
  const { violations } = await page.evaluate(() => window.axe.run(document, { resultTypes: ["violations"] }));
  return violations
    .filter((v) => ["serious", "critical"].includes(v.impact))
    .map((v) => `${v.id} (${v.impact}): ${v.nodes.length} times, such as ${v.nodes[0].html.slice(0, 120)}`);
}

/** Every state of the page in turn, each handed to `look`. */
async function states(page, look) {
  await look("empty");
  await show(page, "bacon cheeseburger with fries");
  await page.click("#component-0 .component");
  await page.waitForSelector(".panel");
  await press(page, "Right-size it");
  await page.$$eval("details", (all) => all.forEach((details) => (details.open = true)));
  await look("plate");
  await press(page, "Ask the kitchen");
  await look("kitchen");
  await press(page, "Close", "dialog");
  await press(page, "Compare with another");
  await show(page, "pad thai with shrimp");
  await look("side by side");
  await press(page, "End the comparison");
  await log(page);
  await page.click("#to-day");
  await page.$$eval("details", (all) => all.forEach((details) => (details.open = true)));
  await look("day");
  await page.click("#to-plate");
}

export async function axeFindsNothingSeriousInLightAndDark({ dist }) {
  const phone = await Phone.open(dist);
  // `bypass` lets axe in; that the page's own rules hold is checked elsewhere.
  const page = await phone.page({ bypass: true });
  const faults = [];
  let looks = 0;
  for (const scheme of ["light", "dark"]) {
    await page.emulateMediaFeatures([{ name: "prefers-color-scheme", value: scheme }]);
    await states(page, async (state) => {
      looks += 1;
      for (const fault of await findings(page)) faults.push(`${scheme}, ${state}: ${fault}`);
    });
  }
  await phone.close();
  holds(faults.length === 0, `\n  ${faults.join("\n  ")}`);
  return `${looks} states of the page, light and dark`;
}

export async function textAtTwiceTheSize({ dist, shots }) {
  const phone = await Phone.open(dist);
  const page = await phone.page();
  const faults = [];
  await page.evaluate(() => (document.documentElement.style.fontSize = "200%"));
  await states(page, async (state) => {
    const { wide, out } = await page.evaluate(() => {
      const root = document.documentElement;
      const width = root.clientWidth;
      const inside = (e) => e.closest(".sides, .scene, .aloud, [hidden]");
      const out = [...document.querySelectorAll("main *, header *, footer *, dialog[open] *")]
        .filter((e) => e.getClientRects().length && !inside(e) && getComputedStyle(e).opacity !== "0")
        .filter((e) => e.getBoundingClientRect().right > width + 1);
      return { wide: root.scrollWidth - width, out: out.slice(0, 3).map((e) => e.outerHTML.slice(0, 80)) };
    });
    if (wide > 1) faults.push(`${state}: scrolls sideways by ${wide} px`);
    faults.push(...out.map((html) => `${state}: sticks out: ${html}`));
    if (shots) await page.screenshot({ path: `${shots}/large-${state.replaceAll(" ", "-")}.png` });
  });
  await phone.close();
  holds(faults.length === 0, `\n  ${faults.join("\n  ")}`);
  return "every state at 360 px with letters twice as large: nothing sticks out or scrolls sideways";
}

export async function keyboardAloneIsEnough({ dist }) {
  const phone = await Phone.open(dist);
  const page = await phone.page();
  const focused = () => page.evaluate(() => {
    const at = document.activeElement;
    return { name: at.getAttribute("aria-label") ?? at.textContent.trim(), outline: getComputedStyle(at).outlineStyle, id: at.id };
  });
  const tabTo = async (begins, most = 60) => {
    for (let steps = 0; steps < most; steps++) {
      await page.keyboard.press("Tab");
      const at = await focused();
      if (at.name.startsWith(begins) || at.id === begins) {
        holds(at.outline !== "none" || at.id, `no outline on ${begins}`);
        return;
      }
    }
    throw new Error(`no way to ${begins} with the keyboard`);
  };
  await tabTo("line");
  await page.keyboard.type("fish and chips");
  await page.keyboard.press("Enter");
  await page.waitForSelector("#plate h2");
  await tabTo("1: ");
  await page.keyboard.press("Enter");
  await page.waitForSelector(".panel");
  await page.keyboard.press("Tab");
  await page.keyboard.press("ArrowRight");
  await page.waitForFunction(() => document.querySelector(".less strong")?.textContent === "half");
  holds((await focused()).name.includes("Cod"), `the focus stays with the food: ${(await focused()).name}`);
  await page.evaluate(() => document.querySelector("#plate").focus());
  await tabTo("I ate this");
  await page.keyboard.press("Enter");
  await page.waitForSelector("dialog[open]");
  await tabTo("Log it");
  await page.keyboard.press("Enter");
  await page.waitForFunction(() => document.querySelector("#told").textContent.startsWith("Logged"));
  await page.evaluate(() => document.body.focus());
  // What a screen reader finds: names for all that can be used, headings in order.
  const snapshot = JSON.stringify(await page.accessibility.snapshot());
  for (const name of ["A dish, or a line of a menu", "On the plate", "Food groups and limits", "1: cod", "Take care"]) {
    holds(snapshot.includes(name), `a screen reader does not find ${name}`);
  }
  const whole = JSON.stringify(await page.accessibility.snapshot({ interestingOnly: false }));
  holds(/"name":"Fish and chips, as served","description":"On a plate/.test(whole), "the drawing has a name and is told in words");
  await phone.close();
  return "a dish shown, halved and logged with Tab, arrows and Enter; names and headings stand in the accessibility tree";
}
