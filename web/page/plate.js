// At the table: a line of a menu, its plate, what to change, right-size, ask, and log.

import { aloud, ask as dialog, byId, capital, h, tell } from "./dom.js";
import * as day from "./day_state.js";
import * as store from "./store.js";
import { NotDone, request } from "./core.js";
import { address } from "./link.js";
import { facing, ownSizes, plate as drawn, shares } from "./figure.js";
import { amount, fractions, kcal, units } from "./units.js";
import { eat } from "./eat.js";

/** Parts of a component that a tap gives. */
const PARTS = [
  ["all", "all", 1],
  ["half", "half", 0.5],
  ["little", "a little", 0.25],
  ["none", "none", 0],
  ["box", "in the box", 0],
];

const fresh = (dish = {}) => ({ text: "", shared: null, changes: [], ...dish });

const state = { dish: fresh(), first: null, fit: null, open: null, answer: null };

/** What the engine reads of a dish. */
const asked = ({ text, shared, changes }) => ({
  text,
  shared,
  changes: changes.map(({ how: _how, ...change }) => change),
});

const save = () => store.remember("dish", { dish: state.dish, first: state.first, fit: state.fit });

/** Brings back what was at hand before a reload. */
export async function restore() {
  const kept = await store.remembered("dish");
  if (!kept?.dish) return;
  Object.assign(state, { dish: fresh(kept.dish), first: kept.first ?? null, fit: kept.fit ?? null });
  byId("line").value = state.dish.text;
  show();
}

/** Shows a dish out of a link. */
export function open(shared) {
  Object.assign(state, { dish: fresh({ shared }), fit: null, open: null });
  byId("line").value = "";
  show({ focus: true });
}

function begin(text) {
  Object.assign(state, { dish: fresh({ text }), fit: null, open: null });
  byId("dishes").hidden = true;
  tell("");
}

export function attach() {
  const line = byId("line");
  let waits;
  line.addEventListener("input", () => {
    clearTimeout(waits);
    offer(line.value);
    waits = setTimeout(() => {
      if (line.value.trim().length < 3) return;
      begin(line.value);
      byId("dishes").hidden = false;
      show({ quiet: true });
    }, 200);
  });
  line.addEventListener("keydown", (event) => {
    if (event.key === "Enter" && !event.shiftKey && !line.value.includes("\n")) {
      event.preventDefault();
      byId("ask").requestSubmit();
    }
  });
  byId("ask").addEventListener("submit", (event) => {
    event.preventDefault();
    clearTimeout(waits);
    begin(line.value);
    show({ focus: true });
  });
}

/** Dishes of the library while a name is typed. */
function offer(text) {
  const list = byId("dishes");
  const words = text.trim();
  const found = words.length < 2 || words.length > 60 ? [] : request({ ask: "dishes", words }).dishes;
  list.hidden = found.length === 0;
  list.replaceChildren(...found.slice(0, 5).map((dish) => h("li", {}, h("button", {
    type: "button",
    onclick: () => {
      byId("line").value = dish.name;
      begin(dish.name);
      show({ focus: true });
    },
  }, dish.name))));
}

/** Works the plate out anew and shows it. `quiet`: while typing, nothing is read out. */
export function show({ focus = false, quiet = false } = {}) {
  const place = byId("plate");
  if (!state.dish.text.trim() && !state.dish.shared) {
    place.replaceChildren();
    return;
  }
  try {
    state.answer = request({ ask: "plate", ...asked(state.dish), setting: day.setting(), fit: state.fit });
  } catch (fault) {
    if (!(fault instanceof NotDone)) throw fault;
    state.answer = null;
    place.replaceChildren(h("p", { class: "error", role: quiet ? undefined : "alert" }, capital(fault.message)));
    return;
  }
  place.replaceChildren(...parts(state.answer));
  beside();
  save();
  if (focus) {
    place.focus({ preventScroll: true });
    place.scrollIntoView({ block: "start" });
  }
  if (!quiet) aloud(state.answer.lead.join(". "));
}

function parts(answer) {
  const { page } = answer;
  const lead = answer.lead.map(capital);
  return [
    h("h2", {}, h("bdi", {}, page.title)),
    answer.taken_for ? h("p", {}, `Taken for the library’s “${answer.taken_for}”.`) : null,
    h("div", { class: "lead" }, lead.map((line) => h("p", {}, line))),
    ...answer.refused.map((fault) => h("p", { class: "error", role: "alert" }, capital(fault.told))),
    h("figure", {}, page.plates[0] ? drawn(page.plates[0].drawing, {
      sizes: ownSizes(answer),
      onFood: (number) => tap(answer.labelled[number - 1]),
    }) : null, h("figcaption", { class: "soft" }, page.not_drawn ? `The fork is 19 cm long. ${page.not_drawn}` : "The fork is 19 cm long.")),
    actions(),
    fitted(answer),
    h("h3", {}, "On the plate"),
    h("ul", { class: "components" }, answer.components.map((component, at) => componentItem(component, at, answer))),
    h("h3", {}, "Food groups and limits"),
    shares(page),
    h("details", {}, h("summary", {}, "What was assumed"), h("ul", {}, notes(answer).map((note) => h("li", {}, capital(note))))),
    h("details", {}, h("summary", {}, "Sources"), h("ul", {}, page.sources.map((source) => h("li", {}, source)))),
    h("section", { class: "cautions", "aria-label": "Take care" }, h("h3", {}, "Take care"), h("ul", {}, page.cautions.map((caution) => h("li", {}, capital(caution))))),
  ].filter(Boolean);
}

const notes = (answer) => (answer.eaten ?? answer.audit).notes;

function actions() {
  const button = (text, onclick, more = {}) => h("button", { type: "button", onclick, ...more }, text);
  return h("div", { class: "actions" },
    button("I ate this", log, { class: "main" }),
    button("Right-size it", () => fit("meal"), { "aria-pressed": String(state.fit === "meal") }),
    day.diner() ? button("Size to what is left", () => fit("left"), { "aria-pressed": String(state.fit === "left") }) : null,
    button("Ask the kitchen", kitchen),
    button(state.first ? "End the comparison" : "Compare with another", compare),
    button("Share link", share),
  );
}

function fit(what) {
  state.fit = state.fit === what ? null : what;
  show();
  document.querySelector("#fit")?.scrollIntoView({ block: "nearest" });
}

/** The right-sized plate as a list, with a button that takes its amounts. */
function fitted({ fit: sized }) {
  if (!sized) return null;
  const plate = sized.fitted;
  const remarks = plate.remarks.map((remark) => h("li", {}, capital(remark)));
  const rows = plate.outcome === "reduced" ? plate.components : [];
  const word = (told, grams) => (units() === "metric" && /\d/.test(told) && grams > 0 ? amount("", grams) : fractions(told));
  return h("section", { id: "fit", "aria-label": "Right-sized" },
    h("h3", {}, `Right-sized for ${sized.room}`),
    plate.outcome === "whole" ? h("p", {}, "All of it fits.") : null,
    rows.length ? h("table", {},
      h("thead", {}, h("tr", {}, ["Food", "Have", "Box"].map((name) => h("th", { scope: "col" }, name)))),
      h("tbody", {}, rows.map((row) => h("tr", {},
        h("th", { scope: "row" }, capital(row.name)),
        h("td", {}, h("b", {}, word(row.eat, row.eat_grams))),
        h("td", {}, row.box ? `${row.boxable === false ? "leave " : ""}${word(row.box, row.box_grams)}` : "–"))))) : null,
    plate.eat?.energy_kcal && rows.length ? h("p", {}, `${kcal(plate.eat.energy_kcal.likely)} kcal of ${kcal(plate.served.energy_kcal?.likely ?? 0)} kcal as served.`) : null,
    remarks.length ? h("ul", {}, remarks) : null,
    rows.length ? h("button", { type: "button", onclick: () => take(sized.parts) }, "Take these amounts") : null,
  );
}

/** Each component as the right-sized plate has it. */
function take(sizes) {
  sizes.forEach((part, at) => {
    if (part !== null) change(at, { part, how: part >= 0.999 ? "all" : "sized" });
  });
  state.fit = null;
  show();
  tell(`Right-sized: ${state.answer?.lead[0] ?? ""}`);
}

function change(at, what) {
  const { text } = state.answer.components[at];
  const own = state.dish.changes.find((c) => c.at === at && c.text === text);
  if (own) Object.assign(own, what);
  else state.dish.changes.push({ at, text, ...what });
}

const changeOf = (at) => state.dish.changes.find((c) => c.at === at) ?? {};

function tap(at) {
  state.open = at;
  show({ quiet: true });
  const item = byId(`component-${at}`);
  item?.scrollIntoView({ block: "center" });
  item?.querySelector("button")?.focus({ preventScroll: true });
}

function eatenWords(own) {
  if (own.how === "sized") return own.part > 0 ? `${Math.round(own.part * 100)} % of it` : "none";
  return PARTS.find(([how]) => how === own.how)?.[1];
}

function componentItem(component, at) {
  const own = changeOf(at);
  const opened = state.open === at;
  const number = state.answer.labelled.indexOf(at) + 1;
  const size = component.grams ? amount(component.size, component.grams.likely) : "no amount";
  const eaten = own.how && own.how !== "all" ? eatenWords(own) : null;
  const energy = component.energy_kcal === null ? "" : `, ${kcal(component.energy_kcal)} kcal`;
  const said = component.basis === "typical" || component.basis === "hidden" ? "about " : "";
  return h("li", { id: `component-${at}`, class: eaten ? "less" : "" },
    h("button", {
      type: "button",
      class: "component",
      "aria-expanded": String(opened),
      onclick: () => {
        state.open = opened ? null : at;
        show({ quiet: true });
        byId(`component-${at}`)?.querySelector("button")?.focus({ preventScroll: true });
      },
    },
      h("b", {}, number ? `${number}  ` : "", h("bdi", {}, capital(component.name))),
      h("span", {}, component.foods.length === 0 ? "no food is called this: not counted" : `${said}${size}${energy}`),
      component.groups.length ? h("span", { class: "soft" }, component.groups.join(", ")) : null,
      eaten ? h("strong", {}, eaten) : null,
    ),
    opened ? panel(component, at, own) : null,
  );
}

/** What can be changed of a component. */
function panel(component, at, own) {
  const redo = (what) => {
    change(at, what);
    show();
    byId(`component-${at}`)?.querySelector("button")?.focus({ preventScroll: true });
  };
  const part = PARTS.map(([how, words, part]) => h("label", {},
    h("input", {
      type: "radio",
      name: `part-${at}`,
      value: how,
      checked: (own.how ?? "all") === how,
      onchange: () => redo({ part, how }),
    }),
    h("span", {}, capital(words))));
  const typed = h("input", { type: "text", id: `amount-${at}`, maxlength: "80", enterkeyhint: "done", autocomplete: "off", value: own.amount ?? "", placeholder: units() === "us" ? "such as 6 oz or 1 cup" : "such as 150 g" });
  return h("div", { class: "panel" },
    h("fieldset", { class: "parts" }, h("legend", {}, "How much of it"), part),
    h("form", {
      class: "line",
      onsubmit: (event) => {
        event.preventDefault();
        redo({ amount: typed.value.trim() || null });
      },
    }, h("label", { for: `amount-${at}` }, "Amount as served"), typed, h("button", { type: "submit" }, "Set")),
    foods(component, at, redo),
    h("p", { class: "soft" }, `Taken for ${component.foods[0]?.name ?? "no food"} (${component.certainty}).`),
  );
}

/** Other foods: those that fit first, then a search. */
function foods(component, at, redo) {
  const list = h("ul", { class: "offered" });
  const put = (found) => list.replaceChildren(...found.map((food) => h("li", {}, h("button", {
    type: "button",
    "aria-pressed": String(food.code === component.foods[0]?.code),
    onclick: () => redo({ food: food.code }),
  }, food.name))));
  put(component.foods);
  const words = h("input", {
    type: "search",
    id: `food-${at}`,
    maxlength: "120",
    autocomplete: "off",
    oninput: () => {
      const typed = words.value.trim();
      put(typed ? request({ ask: "foods", words: typed, british: units() === "metric" }).foods : component.foods);
    },
  });
  return h("div", {}, h("label", { for: `food-${at}` }, "Another food"), words, list);
}

/** Sentences to show or say to the kitchen. */
function kitchen() {
  const answer = request({ ask: "plate", ...asked(state.dish), setting: day.setting(), fit: state.fit ?? "meal" });
  const { fitted: plate, questions } = answer.fit;
  const usual = answer.page.questions;
  const all = [...new Set([...questions, ...usual])];
  return dialog("Ask the kitchen", (close) => [
    h("ul", { class: "sentences" }, all.slice(0, 6).map((text) => h("li", {}, text))),
    plate.swaps.length ? h("h3", {}, "As much of the same group") : null,
    plate.swaps.length ? h("ul", {}, plate.swaps.map((swap) => h("li", {}, `${capital(swap.with)} (${units() === "metric" ? amount("", swap.grams) : fractions(swap.amount)}) in place of ${swap.component}: ${kcal(swap.kcal_saved)} kcal less`))) : null,
    h("button", { type: "button", class: "main", onclick: () => close() }, "Close"),
  ].filter(Boolean));
}

function compare() {
  if (state.first) {
    state.first = null;
    show();
    return;
  }
  state.first = structuredClone(state.dish);
  save();
  const line = byId("line");
  line.value = "";
  line.focus();
  tell("The first dish is kept. Name the other one.");
  beside();
}

/** The two dishes facing each other. */
function beside() {
  const place = byId("beside");
  if (!state.first) {
    place.replaceChildren();
    return;
  }
  if (sorted(state.first) === sorted(state.dish)) {
    place.replaceChildren(h("p", { class: "soft" }, "Name another dish above; both will stand side by side here."));
    return;
  }
  let two;
  try {
    ({ two } = request({ ask: "compare", dishes: [asked(state.first), asked(state.dish)], setting: day.setting() }));
  } catch (fault) {
    if (!(fault instanceof NotDone)) throw fault;
    place.replaceChildren(h("p", { class: "error" }, capital(fault.message)));
    return;
  }
  const sides = two.dishes;
  const named = (side) => [side.letter ? `${side.letter}: ` : "", h("bdi", {}, side.title)];
  place.replaceChildren(
    h("h2", {}, "Side by side, at one scale"),
    h("div", { class: "sides", role: "group", "aria-label": "Two dishes; swipe sideways", tabindex: "0" },
      sides.map((side) => h("figure", {}, h("figcaption", {}, ...named(side)), drawn(side.drawing)))),
    facing(two.rows, sides.map(named)),
  );
}

const sorted = (dish) => JSON.stringify([dish.text, dish.shared, dish.changes]);

async function share() {
  const { dish } = request({ ask: "link", ...asked(state.dish), setting: day.setting() });
  const link = address(dish);
  await dialog("Share this plate", (close) => {
    const field = h("textarea", { readonly: true, rows: "4", id: "link", onfocus: () => field.select() }, link);
    const copy = async () => {
      try {
        await navigator.clipboard.writeText(link);
        tell("The link is copied.");
      } catch {
        field.focus();
      }
    };
    const send = () => navigator.share({ title: state.answer.page.title, url: link }).catch(() => {});
    return [
      h("p", {}, "The dish with its amounts stands in the part of the address that browsers keep to themselves: no server is told."),
      h("label", { for: "link" }, "Link"),
      field,
      h("div", { class: "actions" },
        h("button", { type: "button", class: "main", onclick: copy }, "Copy"),
        navigator.share ? h("button", { type: "button", onclick: send }, "Send") : null,
        h("button", { type: "button", onclick: () => close() }, "Close")),
    ];
  });
}

async function log() {
  if (await eat(asked(state.dish))) show({ quiet: true });
}
