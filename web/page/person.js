// Whose day it is: the same questions and the same guard rails as on the command line.

import { capital, h, tell } from "./dom.js";
import * as day from "./day_state.js";
import * as store from "./store.js";
import { NotDone, request } from "./core.js";
import { now, units } from "./units.js";

const ACTIVITIES = [
  ["", "not said"],
  ["inactive", "inactive: half an hour on foot, some light housework"],
  ["low active", "low active: that, and a brisk walk of 60 to 80 minutes"],
  ["active", "active: that, and about two hours of brisk walking or easy cycling"],
  ["very active", "very active: that, and two hours that include hard effort"],
];

/** What the form shows of somebody who is kept. */
function values(diner) {
  if (!diner) return { name: "Me" };
  const age = diner.age?.born ?? diner.age?.stated?.years;
  const us = units() === "us";
  const inches = diner.height_cm ? diner.height_cm / 2.54 : 0;
  const feet = Math.floor(Math.round(inches) / 12);
  return {
    name: diner.name,
    sex: diner.sex ?? "",
    age: age === undefined ? "" : String(age),
    height: diner.height_cm ? (us ? `${feet} ft ${Math.round(inches) - feet * 12} in` : `${Math.round(diner.height_cm)} cm`) : "",
    weight: diner.weight_kg ? (us ? `${Math.round(diner.weight_kg / 0.45359237)} lb` : `${Math.round(diner.weight_kg * 10) / 10} kg`) : "",
    activity: (diner.activity ?? "").replaceAll("_", " "),
    aim: diner.aim ?? "keep",
    energy: diner.stated_energy_kcal ? `${Math.round(diner.stated_energy_kcal)} kcal` : "",
    pregnant_or_nursing: diner.pregnant_or_nursing ?? false,
  };
}

/** The form; `changed` is called once something new is kept. */
export function person(changed) {
  const before = day.diner();
  const shown = values(before);
  const told = h("div", { id: "person-told", role: "status" });
  const text = (name, label, more = {}) => [
    h("label", { for: `person-${name}` }, label),
    h("input", { type: "text", id: `person-${name}`, name, autocomplete: "off", maxlength: "60", value: shown[name] ?? "", ...more }),
  ];
  const select = (name, label, options) => [
    h("label", { for: `person-${name}` }, label),
    h("select", { id: `person-${name}`, name }, options.map(([value, words]) => h("option", { value, selected: value === (shown[name] ?? "") }, words))),
  ];
  const us = units() === "us";
  const form = h("form", {
    class: "fields",
    onsubmit: (event) => {
      event.preventDefault();
      keep(form, before, told, changed);
    },
  },
    text("name", "Name"),
    select("sex", "Sex, as the equations are split", [["", "not said"], ["female", "female"], ["male", "male"]]),
    text("age", "Years, or date of birth", { placeholder: "34 or 1991-04-02" }),
    text("height", "Height", { placeholder: us ? "5 ft 6 in" : "168 cm" }),
    text("weight", "Weight", { placeholder: us ? "150 lb" : "68 kg" }),
    select("activity", "An ordinary day", ACTIVITIES),
    select("aim", "Aim", [["keep", "keep the weight"], ["lose", "lose weight"], ["gain", "gain weight"]]),
    h("label", { class: "check" }, h("input", { type: "checkbox", name: "pregnant_or_nursing", checked: shown.pregnant_or_nursing === true }), " pregnant or nursing"),
    text("energy", "Or the day’s energy itself", { placeholder: "2000 kcal", inputmode: "text" }),
    h("p", { class: "soft" }, "An estimate for adults. With a condition that sets what to eat, a doctor or registered dietitian says what is right."),
    h("button", { type: "submit", class: "main" }, "Work out my day"),
    told,
  );
  return h("details", { class: "person", open: !before }, h("summary", {}, before ? `Whose day: ${before.name}` : "Set my own day (without it: 2,000 kcal)"), form);
}

async function keep(form, before, told, changed) {
  const fields = new FormData(form);
  const asked = Object.fromEntries(["name", "sex", "age", "height", "weight", "activity", "aim", "energy"].map((name) => [name, fields.get(name) ?? ""]));
  asked.pregnant_or_nursing = fields.has("pregnant_or_nursing");
  const say = (...lines) => told.replaceChildren(...lines.map((line) => h("p", {}, line)));
  try {
    const answer = request({ ask: "person", now: now(), form: asked, before });
    if (answer.refused) {
      say(answer.refused, before ? "Nothing was changed." : "Nobody was added.");
      return;
    }
    const { diner, told: figure, level_kcal: level, cautions } = answer.kept;
    await store.keepDiner(diner, before?.name);
    await store.remember("diner", diner.name);
    await day.refresh();
    changed();
    tell([`${diner.name}: ${figure}, held against the ${level.toLocaleString("en")} kcal level`, ...cautions.map(capital)].join(". "));
  } catch (fault) {
    if (!(fault instanceof NotDone || fault instanceof store.NotKept)) throw fault;
    say(capital(fault.message));
  }
}
