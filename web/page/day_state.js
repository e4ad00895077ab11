// The diner at hand and what they logged, read from the store and kept in step with other tabs.

import * as store from "./store.js";
import { now, units } from "./units.js";

const state = { diner: null, diners: [], records: [], changes: [] };

/** Days of records that a request about a day needs. */
const DAYS = 16;

export const diner = () => state.diner;
export const diners = () => state.diners;
export const allRecords = () => state.records;
export const allChanges = () => state.changes;

/** Reads everything anew. */
export async function refresh() {
  const [{ diners, records, changes }, name] = await Promise.all([store.everything(), store.remembered("diner")]);
  state.diners = diners;
  state.diner = diners.find((diner) => diner.name === name) ?? diners[0] ?? null;
  state.records = records;
  state.changes = changes;
}

export async function choose(name) {
  await store.remember("diner", name);
  await refresh();
}

/** What goes with a request: units, the time, the diner and what they logged lately. */
export function setting(back = 1) {
  const from = new Date();
  from.setDate(from.getDate() - back);
  const since = now(from).slice(0, 10);
  const own = state.records.filter(
    (record) => record.diner === state.diner?.name && record.entry.at.date >= since,
  );
  return { units: units(), now: now(), diner: state.diner, records: own };
}

export const weeks = () => setting(DAYS);
