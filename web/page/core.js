// The engine: the same foods, dishes and figures as on the command line, compiled for browsers.

import init, { Engine } from "./engine.js";

let engine;
let loaded;

async function start() {
  await init({ module_or_path: new URL("./engine_bg.wasm", import.meta.url) });
  engine = new Engine();
}

/** Loads the engine once. */
export function ready() {
  loaded ??= start();
  return loaded;
}

/** What the person asked could not be done; the message is for them. */
export class NotDone extends Error {}

/** Asks the engine. Throws NotDone with a sentence for the person. */
export function request(what) {
  let text;
  try {
    text = engine.answer(JSON.stringify(what));
  } catch (trap) {
    // A trapped module is never asked again: what it holds may be half done.
    loaded = undefined;
    ready();
    throw new NotDone("That could not be worked out. Nothing you logged is touched; try other words.", { cause: trap });
  }
  const answer = JSON.parse(text);
  if (answer.error !== undefined) throw new NotDone(answer.error);
  return answer;
}
