// What is kept on this phone: diners, what they ate, and the dish at hand. Nothing is said to be
// kept before the database has it.

import { openDB, deleteDB } from "./vendor/idb.js";

const NAME = "trencher";
const channel = "BroadcastChannel" in globalThis ? new BroadcastChannel(NAME) : null;
let opened;

function open() {
  opened ??= openDB(NAME, 1, {
    upgrade(db) {
      db.createObjectStore("diners", { keyPath: "name" });
      const records = db.createObjectStore("records", { keyPath: "uid" });
      records.createIndex("order", "order");
      records.createIndex("number", ["record.diner", "record.number"]);
      const changes = db.createObjectStore("changes", { autoIncrement: true });
      changes.createIndex("step", ["diner", "change.step"]);
      db.createObjectStore("state");
    },
    // Another tab removes or changes the database: let go of it, and open it anew when asked.
    blocking(_current, _blocked, event) {
      event.target.close();
      opened = undefined;
    },
    terminated() {
      opened = undefined;
    },
  });
  opened.catch(() => (opened = undefined));
  return opened;
}

/** Nothing could be kept; the message says why, for the person. */
export class NotKept extends Error {}

/** Runs `work` on some stores and resolves once everything is on the disk. */
async function write(stores, work) {
  try {
    const db = await open();
    const tx = db.transaction(stores, "readwrite", { durability: "strict" });
    // All of it or nothing: what fails half way is taken back.
    const worked = work(tx).catch((fault) => {
      try {
        tx.abort();
      } catch {
        // The database took it back already.
      }
      throw fault;
    });
    const [answer] = await Promise.all([worked, tx.done.catch((fault) => worked.then(() => Promise.reject(fault)))]);
    channel?.postMessage("changed");
    return answer;
  } catch (fault) {
    if (fault instanceof NotKept) throw fault;
    const full = fault?.name === "QuotaExceededError" || fault?.inner?.name === "QuotaExceededError";
    throw new NotKept(
      full
        ? "This phone’s storage is full, so nothing was kept. Make room, or save what is here under My day."
        : "The phone could not keep this, and nothing was changed.",
      { cause: fault },
    );
  }
}

/** Calls back whenever another tab changed what is kept. */
export function onChange(callback) {
  channel?.addEventListener("message", callback);
}

/** All diners, all records in the order they were logged, and what was done to them. */
export async function everything() {
  const db = await open();
  const tx = db.transaction(["diners", "records", "changes"]);
  const [diners, kept, changes] = await Promise.all([
    tx.objectStore("diners").getAll(),
    tx.objectStore("records").index("order").getAll(),
    tx.objectStore("changes").getAll(),
    tx.done,
  ]);
  return { diners, records: kept.map((row) => row.record), changes: changes.map((row) => row.change) };
}

const last = async (index, range) => (await index.openCursor(range, "prev"))?.value;
const ofDiner = (name) => IDBKeyRange.bound([name, 0], [name, Infinity]);
const lastOrder = async (records) => (await last(records.index("order")))?.order ?? 0;
const lastNumber = async (records, diner) => (await last(records.index("number"), ofDiner(diner)))?.record.number ?? 0;
const lastStep = async (changes, diner) => (await last(changes.index("step"), ofDiner(diner)))?.change.step ?? 0;

/** The time as the day log keeps it, to the second. */
const moment = () => new Date().toISOString().replace(/\.\d+Z$/, "Z");

/** Keeps a new entry, with its diner where that one is new. */
export function keep(record, diner) {
  return write(["diners", "records", "changes"], async (tx) => {
    const [diners, records] = [tx.objectStore("diners"), tx.objectStore("records")];
    if (!(await diners.get(diner.name))) await diners.add(diner);
    const number = (await lastNumber(records, diner.name)) + 1;
    const order = (await lastOrder(records)) + 1;
    await records.add({ uid: record.uid, order, record: { ...record, number } });
    await done(tx, record, "eaten");
  });
}

/** Puts an entry in the place of the one it was; `kind` is `edited` or `removed`. */
export function change(record, kind) {
  return write(["records", "changes"], async (tx) => {
    const records = tx.objectStore("records");
    const there = await records.get(record.uid);
    if (!there) throw new NotKept("This entry is not here any more.");
    const { planned = false, entry } = there.record;
    await records.put({ ...there, record });
    await done(tx, record, kind, kind === "edited" ? { planned, entry } : undefined);
  });
}

/** Writes down what was done, as the day log does. */
async function done(tx, { uid, diner }, kind, before) {
  const changes = tx.objectStore("changes");
  const step = (await lastStep(changes, diner)) + 1;
  await changes.add({ diner, change: { entry: uid, kind, step, made: moment(), ...(before && { before }), undone: false } });
}

/** Puts a diner in the place of `before`, whose entries go along. */
export function keepDiner(diner, before) {
  return write(["diners", "records", "changes"], async (tx) => {
    const diners = tx.objectStore("diners");
    if (before && before !== diner.name) {
      if (await diners.get(diner.name)) throw new NotKept(`There is a ${diner.name} here already.`);
      await diners.delete(before);
      for await (const cursor of tx.objectStore("records")) {
        const row = cursor.value;
        if (row.record.diner === before) await cursor.update({ ...row, record: { ...row.record, diner: diner.name } });
      }
      for await (const cursor of tx.objectStore("changes")) {
        if (cursor.value.diner === before) await cursor.update({ ...cursor.value, diner: diner.name });
      }
    }
    await diners.put(diner);
  });
}

/** Two values of the same text: nothing that JSON writes differs. */
const same = (a, b) => sorted(a) === sorted(b);
const sorted = (value) =>
  JSON.stringify(value, (_key, v) =>
    v && typeof v === "object" && !Array.isArray(v) ? Object.fromEntries(Object.entries(v).sort(([a], [b]) => (a < b ? -1 : 1))) : v,
  );

/** Adds what is new of an import, all of it or nothing; what is here stays as it is here. */
export function merge({ diners: coming, records: entries, changes: made }) {
  return write(["diners", "records", "changes"], async (tx) => {
    const report = { diners: 0, dinersDiffering: [], added: 0, present: 0, differing: [], nobody: [] };
    const [diners, records] = [tx.objectStore("diners"), tx.objectStore("records")];
    for (const diner of coming) {
      const here = await diners.get(diner.name);
      if (!here) {
        await diners.add(diner);
        report.diners += 1;
      } else if (!same(here, diner)) report.dinersDiffering.push(diner.name);
    }
    const added = new Map();
    let order = await lastOrder(records);
    for (const record of entries) {
      const here = await records.get(record.uid);
      if (here) {
        // Each copy counts for itself.
        if (same({ ...here.record, number: 0 }, { ...record, number: 0 })) report.present += 1;
        else report.differing.push(record.entry.dish);
      } else if (!(await diners.get(record.diner))) {
        report.nobody.push(record.diner);
      } else {
        const number = (await lastNumber(records, record.diner)) + 1;
        await records.add({ uid: record.uid, order: ++order, record: { ...record, number } });
        added.set(record.uid, record.diner);
      }
    }
    await history(tx.objectStore("changes"), made, added);
    return { ...report, added: added.size };
  });
}

/** What was done to the entries that were added; steps go on from those that are here. */
async function history(changes, made, added) {
  const steps = new Map();
  for (const change of made) {
    const diner = added.get(change.entry);
    if (diner === undefined) continue;
    const known = steps.get(diner);
    const step = known?.there === change.step ? known.here : (await lastStep(changes, diner)) + 1;
    steps.set(diner, { there: change.step, here: step });
    await changes.add({ diner, change: { ...change, step } });
  }
}

/** Removes everything this page keeps. */
export async function removeEverything() {
  const db = await open();
  db.close();
  opened = undefined;
  await deleteDB(NAME);
  channel?.postMessage("changed");
}

/** The dish at hand and what was chosen: kept so that a reload finds it, never promised. */
export async function remember(key, value) {
  try {
    await (await open()).put("state", value, key);
  } catch {
    // Nothing that was acknowledged.
  }
}

export async function remembered(key) {
  try {
    return await (await open()).get("state", key);
  } catch {
    return undefined;
  }
}
