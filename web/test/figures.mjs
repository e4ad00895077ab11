// The page's figures are those of the command.

import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { Phone, equal, holds, request } from "./browser.mjs";

const LINES = 60;

/** Sixty texts: menu lines of ours, dishes of the library, meals told in sentences. */
function texts(program) {
  const csv = readFileSync(new URL("../../tests/data/menu_lines.csv", import.meta.url), "utf8");
  const lines = csv.split("\n").slice(1).map(firstCell).filter(Boolean);
  const dishes = JSON.parse(run(program, ["dish", "list", "--format", "json"])).map((dish) => dish.name);
  const every = (list, many) => list.filter((_, at) => at % Math.floor(list.length / many) === 0).slice(0, many);
  const meals = [
    "I had two scrambled eggs, a slice of toast and a glass of orange juice.",
    "a bowl of tomato soup with half a grilled cheese sandwich",
    "3 tacos al pastor and a horchata",
    "Grilled salmon 14.95, 620 cal",
    "zzqx with rice",
  ];
  return [...every(lines, 35), ...every(dishes, LINES - 35 - meals.length), ...meals];
}

const firstCell = (row) => (row.startsWith('"') ? row.slice(1, row.indexOf('",')).replaceAll('""', '"') : row.split(",")[0]);

function run(program, args) {
  const home = (run.home ??= mkdtempSync(path.join(tmpdir(), "home-")));
  try {
    return execFileSync(program, args, { encoding: "utf8", env: { ...process.env, TRENCHER_HOME: home }, stdio: ["ignore", "pipe", "ignore"] });
  } catch (error) {
    // 1 says that some of the input could not be used; the answer stands all the same.
    if (error.status !== 1) throw error;
    return error.stdout;
  }
}

/** What each says in its own words of a day for general advice. */
const withoutGeneral = (audit) => ({ ...audit, notes: audit.notes.filter((note) => !note.startsWith("2,000 kcal a day")) });

export async function sixtyLinesAreTheCommands({ dist, program }) {
  const phone = await Phone.open(dist);
  const page = await phone.page();
  const all = texts(program);
  holds(all.length >= LINES, `${all.length} texts only`);
  for (const units of ["us", "metric"]) {
    const setting = { units, now: "2026-03-29T12:30:00+02:00[Europe/Berlin]" };
    for (const text of all) {
      const said = run(program, ["audit", text, "--units", units, "--format", "json"]);
      const { audit } = await request(page, { ask: "plate", text, changes: [], setting }).catch((error) => {
        throw new Error(`${text}: ${error.message}`);
      });
      equal(withoutGeneral(audit), withoutGeneral(JSON.parse(said)), text);
    }
  }
  await phone.close();
  return `${all.length} texts, US and metric: every figure of audit --format json is the same`;
}

export async function fitIsTheCommands({ dist, program }) {
  const phone = await Phone.open(dist);
  const page = await phone.page();
  const dishes = ["bacon cheeseburger with fries", "cobb salad", "pad thai with shrimp", "fish and chips", "spaghetti with meatballs"];
  const setting = { units: "us", now: "2026-03-29T12:30:00+02:00[Europe/Berlin]" };
  for (const text of dishes) {
    const said = JSON.parse(run(program, ["fit", text, "--format", "json"]));
    const { fit } = await request(page, { ask: "plate", text, changes: [], setting, fit: "meal" });
    for (const key of ["outcome", "served", "eat", "kept", "components", "amounts", "asks", "swaps", "remarks"]) {
      equal(fit.fitted[key], said[key], `${text}, ${key}`);
    }
  }
  await phone.close();
  return `${dishes.length} right-sized plates are those of the command`;
}
