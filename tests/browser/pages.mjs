// Writes the pages that check.mjs opens: dishes of the library, each by itself and on A4 or
// Letter in turn, comparisons of two to four dishes drawn at random (the same every time), a
// quiz, large print, booklets, signed pages, plates at life size, days to tick off, a menu report, and dishes with hostile names.
//
//   node pages.mjs TRENCHER FOLDER [HOW MANY DISHES] [HOW MANY COMPARISONS]
//
// TRENCHER is the program (target/debug/trencher); FOLDER is emptied of .html files first.
// Without numbers it is the whole library and thirty comparisons.

import { execFileSync } from "node:child_process";
import { mkdirSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import path from "node:path";
import { fileURLToPath } from "node:url";

const [program, folder, count = "1000", pairs = "30"] = process.argv.slice(2);
if (!folder) {
  console.error("usage: node pages.mjs TRENCHER FOLDER [HOW MANY DISHES] [HOW MANY COMPARISONS]");
  process.exit(2);
}
mkdirSync(folder, { recursive: true });
for (const name of readdirSync(folder).filter((n) => /\.(html|svg)$/.test(n))) rmSync(path.join(folder, name));

const run = (args) => {
  try {
    return execFileSync(program, args, { encoding: "utf8", stdio: ["ignore", "pipe", "ignore"], maxBuffer: 1 << 28 });
  } catch (error) {
    // 1 says that some of the input could not be used: a hostile name is no food.
    if (error.status !== 1) throw error;
    return error.stdout;
  }
};
const write = (name, args) => run(["handout", ...args, "-o", path.join(folder, `${name}.html`)]);

const listed = JSON.parse(run(["dish", "list", "--format", "json"]));
const names = listed.map((dish) => dish.name);
// Spread over the library, so that every kind of dish is among them.
const step = Math.max(1, Math.floor(names.length / Number(count)));
const some = names.filter((_, at) => at % step === 0).slice(0, Number(count));
some.forEach((name, at) => write(`dish-${String(at).padStart(3, "0")}`, [name, "--paper", at % 2 ? "letter" : "a4"]));

let seed = 20250; // the same comparisons every time
const random = (below) => {
  seed = (seed * 1103515245 + 12345) % 2147483648;
  return Math.floor((seed / 2147483648) * below);
};
for (let at = 0; at < Number(pairs); at++) {
  const sides = Array.from({ length: 2 + (at % 3) }, () => names[random(names.length)]);
  const page = run(["compare", ...sides, "--format", "html", "--paper", at % 2 ? "letter" : "a4"]);
  writeFileSync(path.join(folder, `compare-${String(at).padStart(2, "0")}.html`), page);
}

write("large-letter", ["full-english-breakfast", "--large-print", "--paper", "letter"]);
write("large-a4", ["beef-pho", "--large-print"]);
write("large-letter-2", ["taco-salad-in-a-tortilla-bowl", "--large-print", "--paper", "letter"]);
write("two", ["fish-and-chips", "greek-salad-with-pita", "--two"]);
write("two-letter", ["full-english-breakfast", "taco-salad-in-a-tortilla-bowl", "--two", "--paper", "letter"]);
write("quiz", ["fish-and-chips", "beef-pho", "cobb-salad", "--quiz"]);
write("booklet", [...some.slice(0, 12), "--booklet"]);
write("booklet-long", [...names.slice(40, 102), "--booklet", "--paper", "letter"]);
const signed = ["--from", "Dr. שירה O’Brien-Featherstonehaugh <b>", "--date", "2026-11-30"];
write("signed", ["full-english-breakfast", ...signed]);
write("signed-two", ["fish-and-chips", "greek-salad-with-pita", "--two", "--paper", "letter", ...signed]);
write("signed-quiz", ["beef-pho", "--quiz", ...signed]);
write("signed-booklet", ["beef-pho", "cobb-salad", "carrot-cake", "--booklet", ...signed]);
for (const [at, name] of some.filter((_, at) => at % 3 === 0).entries()) {
  run(["handout", name, "--card", "-o", path.join(folder, `card-${at}.svg`)]);
  run(["handout", name, "-o", path.join(folder, `plates-${at}.svg`)]);
}
run(["handout", ...some.slice(0, 4), "-o", path.join(folder, "plates-four.svg")]);
run(["handout", "cobb-salad", "--life-size", "-o", path.join(folder, "life.svg")]);
write("life-a4", ["cobb-salad", "--life-size", ...signed]);
write("life-letter", ["fish-and-chips", "--life-size", "--paper", "letter"]);
write("metric", ["chicken-tikka-masala-with-rice", "--units", "metric"]);
for (const [name, args] of Object.entries({
  fit: ["cobb-salad", "--fit"],
  "fit-day": ["cobb-salad", "--fit", "--day"],
  day: ["cobb-salad", "--day"],
  "three-day": ["cobb-salad", "beef-pho", "carrot-cake", "--day"],
  metric: ["cobb-salad", "beef-pho", "--units", "metric"],
})) {
  writeFileSync(path.join(folder, `beside-${name}.html`), run(["compare", ...args, "--format", "html"]));
}

// Menus: one that prints energy, and sixty items of one that does not.
const demo = path.join(path.dirname(fileURLToPath(import.meta.url)), "../../demo-data/lunch-menu.csv");
run(["menu", demo, "-o", path.join(folder, "menu-printed.html"), "--force"]);
const sixty = path.join(folder, "A_menu of sixty.csv");
writeFileSync(sixty, `item\n${names.slice(0, 59).join("\n")}\nzzyzx\n`);
run(["menu", sixty, "-o", path.join(folder, "menu-sixty.html"), "--force"]);

// A day to tick off for three diners: their own folder of diners, gone again at the end.
const home = path.join(folder, "home");
rmSync(home, { recursive: true, force: true });
process.env.TRENCHER_HOME = home;
const diners = {
  ida: ["--sex", "female", "--age", "70", "--height", "160 cm", "--weight", "58 kg", "--activity", "inactive", "--energy", "1600"],
  vera: ["--sex", "female", "--age", "40", "--height", "170 cm", "--weight", "66 kg", "--activity", "low active", "--energy", "2200", "--standard", "vegetarian"],
  dan: ["--sex", "male", "--age", "28", "--height", "185 cm", "--weight", "80 kg", "--activity", "active", "--energy", "3000", "--standard", "dash"],
};
for (const [name, details] of Object.entries(diners)) {
  run(["diner", "add", name, ...details]);
  write(`signed-${name}`, ["full-english-breakfast", "--for", name, ...signed]);
  for (const paper of ["a4", "letter"]) {
    write(`day-${name}-${paper}`, ["--day", "--for", name, "--paper", paper]);
    write(`day-${name}-${paper}-meals`, ["--day", "--by-meal", "--for", name, "--paper", paper]);
    write(`day-${name}-${paper}-week`, ["--day", "--week", "--for", name, "--paper", paper]);
  }
}
rmSync(home, { recursive: true, force: true });
delete process.env.TRENCHER_HOME;

// Days, weeks and clients of a log of its own.
const logHome = path.join(folder, "log");
rmSync(logHome, { recursive: true, force: true });
const now = "2026-11-25T12:30:00-05:00[America/New_York]";
const log = (args) => {
  const env = { ...process.env, TRENCHER_HOME: logHome, TRENCHER_NOW: now };
  return execFileSync(program, args, { encoding: "utf8", stdio: ["ignore", "pipe", "ignore"], env });
};
log(["diner", "add", "Ana", "--energy", "2000"]);
log(["diner", "add", "Donaudampfschifffahrtsgesellschaftskapitaen <b>", "--energy", "1800"]);
for (const day of ["2026-11-16", "2026-11-19", "2026-11-21", "2026-11-24", "2026-11-25"]) {
  for (const [dish, time] of [["yogurt and granola bowl", "08:10"], ["fish and chips", "12:00"]]) {
    log(["day", "eat", dish, "--at", `${day} ${time}`, "--diner", "Ana"]);
  }
}
log(["day", "plan", "beef pho", "--at", "19:00", "--diner", "Ana"]);
for (const page of [["day", "show"], ["day", "left"], ["day", "history"]]) {
  const text = log([...page, "--diner", "Ana", "--format", "html", ...signed.slice(0, 2), "--paper", "letter"]);
  writeFileSync(path.join(folder, `log-${page[1]}.html`), text);
}
writeFileSync(path.join(folder, "log-overview.html"), log(["diner", "overview", "--format", "html", ...signed]));

const names_of = {
  markup: `"><script>document.title='ran'</script><img src=x onerror="document.title='ran'">{{7*7}}`,
  long: "Donaudampfschifffahrtsgesellschaftskapitaenskajuetenschluessel".repeat(2),
  directions: "שקשוקה עם לחם ‎خبز مع زيتون".replace("\u200e", ""),
  pictures: "👩\u200d🍳 Ż\u0335\u0335\u0335ebra 🍕🍕🍕 &amp; ’co’",
};
for (const [kind, name] of Object.entries(names_of)) {
  const file = path.join(folder, `${kind}.toml`);
  const text = JSON.stringify(name);
  const foods = ["rice", "chicken breast, grilled", "broccoli", "cheddar"];
  const components = foods.map((food, at) => `[[component]]\nfood = "${food}"\namount = "${at + 1} oz"\nnote = ${text}\n`);
  components.push(`[[component]]\nfood = ${text}\namount = "1 cup"\n`);
  writeFileSync(file, `name = ${text}\nkind = "mixed plate"\nsource = ${text}\n\n${components.join("\n")}`);
  write(`hostile-${kind}`, [file]);
  write(`hostile-${kind}-two`, [file, file, "--two"]);
  write(`hostile-${kind}-quiz`, [file, "--quiz", "--title", name]);
  write(`hostile-${kind}-booklet`, [file, file, "--booklet", "--title", name, "--from", name]);
  write(`hostile-${kind}-life`, [file, "--life-size"]);
}
console.log(`${readdirSync(folder).filter((n) => /\.(html|svg)$/.test(n)).length} pages in ${folder}`);
