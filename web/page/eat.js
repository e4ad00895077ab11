// Logging a plate: asked once, kept whole, acknowledged only when the database has it.

import { ask as dialog, capital, h, tell } from "./dom.js";
import * as day from "./day_state.js";
import * as store from "./store.js";
import { NotDone, request } from "./core.js";
import { kcal } from "./units.js";

/** A day for whoever has not said anything of themselves. */
const NOBODY = { name: "Me", energy: "2000 kcal" };

export function uid() {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
}

function usualDiner(setting) {
  const answer = request({ ask: "person", now: setting.now, form: NOBODY });
  return answer.kept.diner;
}

/** Asks how much and when, then keeps it. True once it is kept. */
export async function eat(dish) {
  const setting = day.setting();
  const own = setting.diner ?? usualDiner(setting);
  const meals = own.meals.map((meal) => meal.name);
  const said = await dialog("Log it", (close) => {
    const share = h("select", { id: "eat-share" }, [["1", "all that is shown"], ["0.5", "half"], ["0.25", "a quarter"], ["2", "two servings"]].map(([value, words]) => h("option", { value }, words)));
    const at = h("input", { type: "time", id: "eat-at" });
    const meal = h("select", { id: "eat-meal" }, h("option", { value: "" }, "by the hour"), meals.map((name) => h("option", { value: name }, name)));
    return h("form", {
      class: "fields",
      onsubmit: (event) => {
        event.preventDefault();
        close({ share: Number(share.value), at: at.value, meal: meal.value });
      },
    },
      h("label", { for: "eat-share" }, "How much"), share,
      h("label", { for: "eat-at" }, "When (empty: now)"), at,
      h("label", { for: "eat-meal" }, "Meal"), meal,
      h("div", { class: "actions" },
        h("button", { type: "submit", class: "main" }, "Log it"),
        h("button", { type: "button", onclick: () => close() }, "Cancel")));
  });
  if (!said) return false;
  const what = {
    ask: "eat",
    ...dish,
    setting: { ...setting, diner: own },
    uid: uid(),
    share: said.share,
    at: said.at || null,
    meal: said.meal || null,
  };
  try {
    let answer = request(what);
    if (answer.not_plausible) {
      const go = await dialog("Can that be?", (close) => [
        h("ul", {}, answer.not_plausible.map((doubt) => h("li", {}, capital(doubt)))),
        h("div", { class: "actions" },
          h("button", { type: "button", class: "main", onclick: () => close(false) }, "Mend the amounts"),
          h("button", { type: "button", onclick: () => close(true) }, "Log it all the same")),
      ]);
      if (!go) return false;
      answer = request({ ...what, sure: true });
    }
    await store.keep(answer.record, own);
    await day.refresh();
    tell(acknowledged(answer.record));
    return true;
  } catch (fault) {
    if (!(fault instanceof NotDone || fault instanceof store.NotKept)) throw fault;
    tell(capital(fault.message));
    return false;
  }
}

function acknowledged({ entry }) {
  const energy = entry.limits.energy?.amount;
  const figures = energy ? `, about ${kcal(energy.likely)} kcal` : "";
  return `Logged: ${entry.dish}${figures}, ${entry.meal ?? "no meal"}. It stands under My day.`;
}
