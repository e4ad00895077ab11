// Opens the built page in Chromium and checks it.
//
//   web/build && cargo build && cd web/test && npm install
//   node check.mjs ../../target/debug/trencher [--only WORDS] [--shots FOLDER] [--slow]
//
// `--only` runs the checks whose names hold the words; `--slow` also those that measure time,
// which a busy machine fails. CHROMIUM names another browser. Exits 1 when anything failed.

import { existsSync } from "node:fs";
import { mkdir } from "node:fs/promises";
import path from "node:path";
import * as exchange from "./exchange.mjs";
import * as figures from "./figures.mjs";
import * as hostile from "./hostile.mjs";
import * as paths from "./path.mjs";
import * as safety from "./safety.mjs";
import * as sight from "./sight.mjs";
import * as speed from "./speed.mjs";

const args = process.argv.slice(2);
const option = (name) => {
  const at = args.indexOf(name);
  return at < 0 ? undefined : args.splice(at, 2)[1];
};
const only = option("--only") ?? "";
const shots = option("--shots");
const slow = args.includes("--slow");
const [program] = args.filter((arg) => arg !== "--slow");
const dist = new URL("../dist", import.meta.url).pathname;
if (!program || !existsSync(program) || !existsSync(path.join(dist, "engine_bg.wasm"))) {
  console.error("usage: node check.mjs TRENCHER [--only WORDS] [--shots FOLDER] [--slow], after web/build");
  process.exit(2);
}
if (shots) await mkdir(shots, { recursive: true });

const all = [figures, paths, exchange, hostile, sight, safety, ...(slow ? [speed] : [])].flatMap((file) => Object.entries(file));
const words = (name) => name.replace(/([A-Z])/g, " $1").toLowerCase();
let failed = 0;
for (const [name, check] of all.filter(([name]) => words(name).includes(only))) {
  const began = Date.now();
  const took = () => `${((Date.now() - began) / 1000).toFixed(0)} s`;
  try {
    console.log(`ok ${words(name)}: ${await check({ dist, program: path.resolve(program), shots })} (${took()})`);
  } catch (error) {
    failed += 1;
    console.log(`FAILED ${words(name)} (${took()}): ${error.stack ?? error}`);
  }
}
console.log(failed ? `${failed} failed` : "all passed");
// A browser of a check that failed may still be open.
process.exit(failed ? 1 : 0);
