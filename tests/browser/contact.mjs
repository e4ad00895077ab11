// One picture of many dishes, for looking at: every plate as a page shows it, its labels left
// out, its name below.
//
//   node contact.mjs TRENCHER PICTURE.png [HOW MANY DISHES] [--chromium PATH]

import { execFileSync } from "node:child_process";
import { chromium } from "playwright-core";

const args = process.argv.slice(2);
const at = args.indexOf("--chromium");
const executablePath = at < 0 ? (process.env.CHROMIUM ?? "/usr/bin/chromium") : args.splice(at, 2)[1];
const [program, picture, count = "40"] = args;
if (!picture) {
  console.error("usage: node contact.mjs TRENCHER PICTURE.png [HOW MANY DISHES] [--chromium PATH]");
  process.exit(2);
}
const run = (list) => execFileSync(program, list, { encoding: "utf8", stdio: ["ignore", "pipe", "ignore"], maxBuffer: 1 << 28 });
const names = JSON.parse(run(["dish", "list", "--format", "json"])).map((dish) => dish.name);
const step = Math.max(1, Math.floor(names.length / Number(count)));
const some = names.filter((_, i) => i % step === 0).slice(0, Number(count));
const browser = await chromium.launch({ executablePath, args: ["--no-sandbox", "--disable-gpu"] });
const page = await browser.newPage({ viewport: { width: 1500, height: 900 } });
const cells = [];
for (const name of some) {
  await page.setContent(run(["handout", name, "-o", "-"]));
  cells.push(await page.evaluate((name) => {
    const frame = document.querySelector(".frame");
    const svg = frame.querySelector("svg");
    svg.querySelector(".leaders")?.remove();
    // The scene without the room of labels.
    const narrow = parseFloat(getComputedStyle(frame).getPropertyValue("--narrow"));
    const up = -parseFloat(getComputedStyle(frame).getPropertyValue("--up")) / 100;
    svg.setAttribute("viewBox", `83 ${up * 152} 152 ${152 / narrow}`);
    return `<figure>${svg.outerHTML}<figcaption>${name.replace(/[<&]/g, "")}</figcaption></figure>`;
  }, name));
}
const style = "body{margin:8px;font:13px sans-serif;display:grid;grid-template-columns:repeat(8,1fr);gap:10px}figure{margin:0;align-self:end}svg{width:100%;height:auto;display:block}figcaption{text-align:center}";
await page.setContent(`<style>${style}</style>${cells.join("")}`);
await page.screenshot({ path: picture, fullPage: true });
await browser.close();
console.log(`${some.length} dishes in ${picture}`);
