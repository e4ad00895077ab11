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
      db.createObjectStore("records", { keyPath: "uid" }).createIndex("order", "order");
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

/** All diners, and all records in the order they were logged. */
export async function everything() {
  const db = await open();
  const tx = db.transaction(["diners", "records"]);
  const [diners, kept] = await Promise.all([
    tx.objectStore("diners").getAll(),
    tx.objectStore("records").index("order").getAll(),
    tx.done,
  ]);
  return { diners, records: kept.map((row) => row.record) };
}

const lastOrder = async (records) => (await records.index("order").openCursor(null, "prev"))?.value.order ?? 0;

/** Keeps an entry, with its diner where that one is new. */
export function keep(record, diner) {
  return write(["diners", "records"], async (tx) => {
    const records = tx.objectStore("records");
    const diners = tx.objectStore("diners");
    if (diner && !(await diners.get(diner.name))) await diners.add(diner);
    const there = await records.get(record.uid);
    const order = there?.order ?? (await lastOrder(records)) + 1;
    await records.put({ uid: record.uid, order, record });
  });
}

/** Puts a diner in the place of `before`, whose entries go along. */
export function keepDiner(diner, before) {
  return write(["diners", "records"], async (tx) => {
    const diners = tx.objectStore("diners");
    if (before && before !== diner.name) {
      if (await diners.get(diner.name)) throw new NotKept(`There is a ${diner.name} here already.`);
      await diners.delete(before);
      const records = tx.objectStore("records");
      for (const row of await records.getAll()) {
        if (row.record.diner === before) {
          await records.put({ ...row, record: { ...row.record, diner: diner.name } });
        }
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
export function merge({ diners: coming, records: entries }) {
  return write(["diners", "records"], async (tx) => {
    const report = { diners: 0, dinersDiffering: [], added: 0, present: 0, differing: [], nobody: [] };
    const diners = tx.objectStore("diners");
    const records = tx.objectStore("records");
    for (const diner of coming) {
      const here = await diners.get(diner.name);
      if (!here) {
        await diners.add(diner);
        report.diners += 1;
      } else if (!same(here, diner)) report.dinersDiffering.push(diner.name);
    }
    let order = await lastOrder(records);
    for (const record of entries) {
      const here = await records.get(record.uid);
      if (here) {
        if (same(here.record, record)) report.present += 1;
        else report.differing.push(record.entry.dish);
      } else if (!(await diners.get(record.diner))) {
        report.nobody.push(record.diner);
      } else {
        await records.add({ uid: record.uid, order: ++order, record });
        report.added += 1;
      }
    }
    return report;
  });
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
