// Size, and time on a processor four times slower.

import { readFile } from "node:fs/promises";
import path from "node:path";
import { brotliCompressSync, constants } from "node:zlib";
import { Phone, holds } from "./browser.mjs";

const LINES = [
  "bacon cheeseburger with fries", "pad thai with shrimp", "8 oz ribeye with mashed potatoes and green beans", "chicken Caesar salad",
  "Harbour Plate: grilled salmon, brown rice, steamed broccoli", "fish and chips", "margherita pizza 12 inch", "tuna poke bowl", "beef pho",
  "full English breakfast", "cobb salad", "3 tacos al pastor", "lasagna with garlic bread", "tomato soup and a grilled cheese sandwich",
  "eggs benedict", "shrimp scampi over linguine", "veggie burrito bowl with guacamole", "club sandwich with chips", "chicken tikka masala, naan, rice",
  "oatmeal with berries", "12 fl oz cola", "turkey sandwich on rye, no mayo", "Greek salad with pita", "spaghetti with meatballs",
  "bbq ribs with coleslaw and cornbread", "miso salmon, bok choy, jasmine rice", "two eggs and toast", "caramel latte 16 oz", "chocolate cake", "falafel wrap",
];

export async function moduleIsAtMostFourMegabytesCompressed({ dist }) {
  const module = await readFile(path.join(dist, "engine_bg.wasm"));
  const packed = brotliCompressSync(module, { params: { [constants.BROTLI_PARAM_QUALITY]: 11, [constants.BROTLI_PARAM_LGWIN]: 24, [constants.BROTLI_PARAM_SIZE_HINT]: module.length } });
  holds(packed.length <= 4_000_000, `${packed.length} bytes`);
  return `${(packed.length / 1e6).toFixed(2)} MB with brotli, ${(module.length / 1e6).toFixed(2)} MB as it is`;
}

/** Submits a line; resolves after the frame that shows its plate. */
const answerOne = (line) => {
  document.querySelector("#line").value = line;
  document.querySelector("#ask").requestSubmit();
  document.querySelector("#plate").getBoundingClientRect();
  return new Promise((done) => requestAnimationFrame(() => setTimeout(done)));
};

/**
 * Times are those that the page's thread had the processor, four times as long: what a machine
 * four times slower takes, however busy this one is with other work.
 */
export async function firstAndFurtherAnswersWithTheProcessorSlowed({ dist }) {
  const SLOWER = 4;
  const phone = await Phone.open(dist, { worker: false });
  await phone.kept(await phone.page());
  const firsts = [];
  let page, spent;
  for (let time = 0; time < 5; time++) {
    await page?.close();
    page = await phone.page({ bare: true, address: "icon.svg" });
    const session = await page.createCDPSession();
    await session.send("Performance.enable", { timeDomain: "threadTicks" });
    spent = async (work) => {
      const clock = async () => {
        const { metrics } = await session.send("Performance.getMetrics");
        return metrics.find((metric) => metric.name === "ThreadTime").value * 1000;
      };
      const began = await clock();
      await work();
      return SLOWER * ((await clock()) - began);
    };
    const line = LINES[time];
    firsts.push(await spent(async () => {
      await page.goto(phone.base);
      await page.waitForSelector("html[data-ready]");
      await page.evaluate(answerOne, line);
    }));
  }
  const further = [];
  for (const line of LINES) further.push(await spent(() => page.evaluate(answerOne, line)));
  await phone.close();
  const sorted = further.toSorted((a, b) => a - b);
  const whole = (ms) => ms.toFixed(0);
  const late = sorted.filter((ms) => ms > 100).length;
  const figures = `first ${firsts.map(whole).join(", ")} ms from opening; ${LINES.length} further: median ${whole(sorted[Math.floor(sorted.length / 2)])} ms, most ${whole(sorted.at(-1))} ms, ${late} above 100 ms`;
  holds(Math.max(...firsts) <= 1500 && late === 0, figures);
  return figures;
}
