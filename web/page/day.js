// My day: what was eaten, what is left, the last two weeks, whose day it is, and the way in and
// out of the phone.

import { ask as dialog, byId, capital, h, tell } from "./dom.js";
import * as day from "./day_state.js";
import * as store from "./store.js";
import * as measures from "./units.js";
import { NotDone, request } from "./core.js";
import { figure, kcal, now, percent } from "./units.js";
import { person } from "./person.js";

/** Shows the day as it stands. */
export function show() {
  const place = byId("day");
  let answer;
  try {
    answer = request({ ask: "day", setting: day.weeks() });
  } catch (fault) {
    if (!(fault instanceof NotDone)) throw fault;
    // No figure is given to everybody: the sentence says whom to see, and the log stays.
    place.replaceChildren(h("p", { class: "error", role: "alert" }, fault.message), ...rest());
    return;
  }
  place.replaceChildren(...[
    ...standing(answer),
    ...entries(answer),
    rows(answer),
    history(answer),
    ...rest(),
  ].filter(Boolean));
}

const rest = () => [person(show), others(), inAndOut()].filter(Boolean);

function standing({ rows: all, energy_kcal: energy, diner, entries: eaten, notes }) {
  const row = all.find((r) => r.key === "energy");
  const left = row ? row.left : energy;
  const counted = eaten.filter((entry) => !entry.planned);
  const many = counted.length === 1 ? "1 entry" : `${counted.length} entries`;
  const beyond = all.filter((r) => !r.is_group && r.verdict === "beyond").map((r) => r.label);
  // Beans, peas and lentils stand in the group that they are counted in; oils are in the table.
  const open = all.filter((r) => r.is_group && r.verdict === "short" && !["oils", "pulses"].includes(r.key));
  return [
    h("h2", {}, "Today"),
    h("div", { class: "lead" },
      h("p", {}, left > 0 ? `About ${kcal(left)} of ${kcal(energy)} kcal left` : `${kcal(energy)} kcal are reached`, counted.length ? `, after ${many}` : ", nothing logged yet"),
      eaten.length ? h("p", {}, beyond.length ? `Beyond a day’s limit: ${beyond.join(", ")}` : "Within a day’s limits") : null,
      open.length ? h("p", {}, `Left: ${open.map((r) => `${r.label} ${figure(r.unit, r.left)} ${r.unit}`).join(", ")}`) : null),
    ...(diner ? notes.slice(1) : notes).map((note) => h("p", { class: "soft" }, capital(note))),
  ];
}

const times = (share) => (share === 1 ? "all" : share < 1 ? percent(share) : `${share} servings`);

function entries({ entries: all }) {
  if (!all.length) return [];
  return [
    h("h3", {}, "Eaten"),
    h("ul", { class: "entries" }, all.map((entry) => h("li", {},
      h("div", {},
        h("b", {}, h("bdi", {}, entry.dish)),
        h("span", { class: "soft" }, `${entry.planned ? "planned, " : ""}${entry.time}${entry.meal ? `, ${entry.meal}` : ""}, ${times(entry.share)}${entry.energy_kcal ? `, ${kcal(entry.energy_kcal.likely)} kcal (${kcal(entry.energy_kcal.low)} to ${kcal(entry.energy_kcal.high)})` : ""}`),
        entry.uncounted.length ? h("span", { class: "soft" }, `not counted: ${entry.uncounted.join(", ")}`) : null),
      h("div", { class: "actions" },
        h("button", { type: "button", onclick: () => change(entry), "aria-label": `Change ${entry.dish}, ${entry.time}` }, "Change"),
        h("button", { type: "button", onclick: () => remove(entry), "aria-label": `Remove ${entry.dish}, ${entry.time}` }, "Remove"))))),
  ];
}

const recordOf = (uid) => day.allRecords().find((record) => record.uid === uid);

async function edit(uid, what, told, kind = "edited") {
  try {
    const { record } = request({ ask: "edit", setting: day.setting(), record: recordOf(uid), ...what });
    await store.change(record, kind);
    await day.refresh();
    show();
    tell(told);
  } catch (fault) {
    if (!(fault instanceof NotDone || fault instanceof store.NotKept)) throw fault;
    tell(capital(fault.message));
  }
}

const remove = (entry) => edit(entry.uid, { undone: true }, `Removed: ${entry.dish}.`, "removed");

async function change(entry) {
  const meals = day.diner()?.meals.map((meal) => meal.name) ?? [];
  const said = await dialog(`Change ${entry.dish}`, (close) => {
    const share = h("input", { type: "number", id: "edit-share", min: "0.05", max: "50", step: "0.05", inputmode: "decimal", value: String(entry.share) });
    const at = h("input", { type: "time", id: "edit-at", value: entry.time });
    const meal = h("select", { id: "edit-meal" }, meals.map((name) => h("option", { value: name, selected: name === entry.meal }, name)));
    return h("form", {
      class: "fields",
      onsubmit: (event) => {
        event.preventDefault();
        close({
          ...(Number(share.value) !== entry.share && { share: Number(share.value) }),
          ...(at.value && at.value !== entry.time && { at: at.value }),
          ...(meal.value && meal.value !== entry.meal && { meal: meal.value }),
        });
      },
    },
      h("label", { for: "edit-share" }, "Servings eaten (0.5 is half)"), share,
      h("label", { for: "edit-at" }, "When"), at,
      h("label", { for: "edit-meal" }, "Meal"), meal,
      h("div", { class: "actions" },
        h("button", { type: "submit", class: "main" }, "Keep"),
        h("button", { type: "button", onclick: () => close() }, "Cancel")));
  });
  if (said && Object.keys(said).length) await edit(entry.uid, said, `Changed: ${entry.dish}.`);
}

function meter(share, beyond) {
  const fill = h("span", { class: beyond ? "fill beyond" : "fill" });
  fill.style.width = `${Math.min(share, 1) * 100}%`;
  return h("span", { class: "meter", "aria-hidden": "true" }, fill);
}

const WORDS = { beyond: "beyond", at: "at it", met: "reached", more: "reached" };

function rows({ rows: all, entries: eaten }) {
  if (!eaten.length) return null;
  return h("table", { class: "shares" },
    h("caption", {}, "Eaten so far, of the day"),
    h("tbody", {}, all.filter((row) => row.key !== "pulses").map((row) => h("tr", {},
      h("th", { scope: "row" }, capital(row.label)),
      h("td", {},
        meter(row.share, row.verdict === "beyond"),
        h("span", { class: row.verdict === "beyond" ? "words beyond" : "words" }, `${percent(row.share)}${WORDS[row.verdict] ? `, ${WORDS[row.verdict]}` : ""}`),
        h("span", { class: "figures" }, `${figure(row.unit, row.eaten.likely)} of ${figure(row.unit, row.allowed)} ${row.unit}${row.missing ? `, ${row.missing} without a figure` : ""}`))))));
}

function history({ history: days }) {
  if (!days.some((d) => d.entries > 0)) return null;
  const name = (date) => new Date(`${date}T12:00`).toLocaleDateString("en", { weekday: "short", day: "numeric", month: "short" });
  const share = (past, key) => past.shares.find(([k]) => k === key)?.[1] ?? 0;
  return h("details", { class: "history" }, h("summary", {}, "The last two weeks"),
    h("table", {},
      h("thead", {}, h("tr", {}, ["Day", "Energy", "Vegetables", "Sodium"].map((column) => h("th", { scope: "col" }, column)))),
      h("tbody", {}, days.toReversed().map((past) => h("tr", {},
        h("th", { scope: "row" }, name(past.date)),
        past.entries === 0 ? h("td", { colspan: "3", class: "soft" }, "nothing logged") : ["energy", "vegetables", "sodium"].map((key) => h("td", {}, meter(share(past, key), false), percent(share(past, key)))))))));
}

/** Another diner of this phone, where there are several. */
function others() {
  const all = day.diners();
  if (all.length < 2) return null;
  const select = h("select", {
    id: "who",
    onchange: async () => {
      await day.choose(select.value);
      show();
    },
  }, all.map((diner) => h("option", { value: diner.name, selected: diner.name === day.diner()?.name }, diner.name)));
  return h("p", {}, h("label", { for: "who" }, "Whose day "), select);
}

function inAndOut() {
  const file = h("input", { type: "file", id: "import", accept: ".json,application/json", onchange: () => bringIn(file) });
  const unit = h("select", {
    id: "units",
    onchange: async () => {
      measures.choose(unit.value);
      await store.remember("units", unit.value);
      tell(`Measures: ${unit.selectedOptions[0].textContent}.`);
    },
  }, [["phone", "as the phone’s language"], ["us", "US: ounces, cups"], ["metric", "metric: grams"]].map(([value, words]) => h("option", { value, selected: measures.choice() === value }, words)));
  return h("section", { class: "in-and-out", "aria-label": "Measures, files" },
    h("p", {}, h("label", { for: "units" }, "Measures "), unit),
    h("h3", {}, "In and out of this phone"),
    h("p", { class: "soft" }, "The file is the day log’s own: trencher day import takes it, and what trencher day export writes can be brought in here."),
    h("div", { class: "actions" },
      h("button", { type: "button", onclick: takeOut, disabled: !day.diners().length }, "Save my days as a file"),
      h("label", { class: "button", for: "import" }, "Bring in a file"), file,
      h("button", { type: "button", onclick: removeAll }, "Delete everything")));
}

function takeOut() {
  const { text } = request({ ask: "export", diners: day.diners(), records: day.allRecords(), changes: day.allChanges() });
  const url = URL.createObjectURL(new Blob([text], { type: "application/json" }));
  h("a", { href: url, download: `trencher-days-${now().slice(0, 10)}.json` }).click();
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
  tell(`Saved: ${day.allRecords().length} entries.`);
}

async function bringIn(file) {
  try {
    const text = await file.files[0]?.text();
    if (text === undefined) return;
    const coming = request({ ask: "import", text, today: now().slice(0, 10) });
    const report = await store.merge(coming);
    if (!day.diner() && coming.diners[0]) await store.remember("diner", coming.diners[0].name);
    await day.refresh();
    show();
    tell(imported(report));
  } catch (fault) {
    if (!(fault instanceof NotDone || fault instanceof store.NotKept)) throw fault;
    tell(`Nothing was brought in: ${fault.message}`);
  } finally {
    file.value = "";
  }
}

function imported({ diners, dinersDiffering, added, present, differing, nobody }) {
  const several = (number, one, many) => `${number} ${number === 1 ? one : many}`;
  const parts = [`${several(added, "entry", "entries")} brought in`];
  if (present) parts.push(`${present} here already`);
  if (diners) parts.push(`${several(diners, "diner", "diners")} new`);
  if (differing.length) parts.push(`kept as here: ${differing.join(", ")}`);
  if (dinersDiffering.length) parts.push(`details kept as here: ${dinersDiffering.join(", ")}`);
  if (nobody.length) parts.push(`${nobody.length} of a diner who is neither here nor in the file: left out`);
  return `${parts.join("; ")}.`;
}

async function removeAll() {
  const sure = await dialog("Delete everything?", (close) => [
    h("p", {}, "Diners, days and the dish at hand are removed from this phone. Files you saved stay where they are."),
    h("div", { class: "actions" },
      h("button", { type: "button", class: "main", onclick: () => close(false) }, "Keep it"),
      h("button", { type: "button", onclick: () => close(true) }, "Delete everything")),
  ]);
  if (!sure) return;
  await store.removeEverything();
  await day.refresh();
  byId("line").value = "";
  byId("plate").replaceChildren();
  byId("beside").replaceChildren();
  show();
  tell("Everything is deleted.");
}
