// The page: two views, what was at hand, links, and new versions.

import { byId, tell } from "./dom.js";
import * as day from "./day_state.js";
import * as store from "./store.js";
import * as measures from "./units.js";
import { ready, request } from "./core.js";
import { dishIn } from "./link.js";
import * as plate from "./plate.js";
import * as dayView from "./day.js";

const views = { plate: [byId("plate-view"), byId("to-plate")], day: [byId("day-view"), byId("to-day")] };

function turn(name) {
  for (const [view, [section, button]] of Object.entries(views)) {
    section.hidden = view !== name;
    if (view === name) button.setAttribute("aria-current", "page");
    else button.removeAttribute("aria-current");
  }
  if (name === "plate") {
    plate.show({ quiet: true });
    return;
  }
  dayView.show();
  // Another tab may have logged what this one has not heard of yet.
  day.refresh().then(dayView.show, () => {});
}

/** Shows the dish of a link, and takes it out of the address. */
function linked() {
  const dish = dishIn(location.hash);
  if (dish === undefined) return false;
  history.replaceState(null, "", location.pathname + location.search);
  if (dish === null) {
    tell("This link holds no dish that can be read.");
    return false;
  }
  turn("plate");
  plate.open(dish);
  return true;
}

async function start() {
  plate.attach();
  byId("to-plate").addEventListener("click", () => turn("plate"));
  byId("to-day").addEventListener("click", () => turn("day"));
  measures.choose(await store.remembered("units"));
  await Promise.all([ready(), day.refresh().catch(() => tell("This phone lets the page keep nothing: days cannot be logged here."))]);
  const { catalogue, dishes } = request({ ask: "start" });
  byId("version").textContent = `Foods: USDA, ${catalogue}; ${dishes} dishes.`;
  if (!linked()) await plate.restore();
  addEventListener("hashchange", linked);
  store.onChange(async () => {
    await day.refresh();
    if (!byId("day-view").hidden) dayView.show();
  });
  document.documentElement.dataset.ready = "true";
}

/** Keeps the page for use without a network, and takes a new version when there is one. */
async function offline() {
  if (!("serviceWorker" in navigator)) return;
  const registration = await navigator.serviceWorker.register(worker());
  const take = () => registration.waiting?.postMessage("take over");
  // Whoever is in the middle of something is not interrupted: what is at hand and every day are
  // in the database, and the new version finds them there.
  const offer = () => {
    if (!registration.waiting || !navigator.serviceWorker.controller) return;
    if (document.hidden) take();
    else {
      const button = byId("update");
      button.hidden = false;
      button.onclick = take;
      document.addEventListener("visibilitychange", () => document.hidden && take(), { once: true });
    }
  };
  offer();
  registration.addEventListener("updatefound", () => {
    registration.installing?.addEventListener("statechange", offer);
  });
  let replaced = !navigator.serviceWorker.controller;
  navigator.serviceWorker.addEventListener("controllerchange", () => {
    if (!replaced) location.reload();
    replaced = false;
  });
}

function worker() {
  const policy = globalThis.trustedTypes?.createPolicy("worker", { createScriptURL: () => "sw.js" });
  return policy ? policy.createScriptURL("") : "sw.js";
}

start().catch((fault) => {
  tell("The page could not start. Close other pages to free memory, then load it again.");
  throw fault;
});
offline().catch(() => {});
