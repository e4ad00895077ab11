// Building what is shown. Text is only ever set as text; the one thing parsed as markup is what
// the engine draws, through a policy that nothing else goes through.

const policy = globalThis.trustedTypes?.createPolicy("engine", { createHTML: (svg) => svg });

/** An element: `h("p", { class: "soft", onclick }, "text", child)`. */
export function h(tag, attributes = {}, ...children) {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (value === undefined || value === null || value === false) continue;
    if (name.startsWith("on")) element.addEventListener(name.slice(2), value);
    else if (name in element && typeof value !== "string") element[name] = value;
    else element.setAttribute(name, value === true ? "" : value);
  }
  element.append(...children.flat(Infinity).filter((child) => child !== undefined && child !== null && child !== false));
  return element;
}

/** A drawing of the engine as an element of this page. */
export function drawing(svg) {
  const text = policy ? policy.createHTML(svg) : svg;
  const parsed = new DOMParser().parseFromString(text, "text/html");
  return document.importNode(parsed.body.firstElementChild, true);
}

export const byId = (id) => document.getElementById(id);

/** Says something in a line that screen readers read out. */
export function tell(text) {
  byId("told").textContent = text;
}

/** Says something to screen readers alone: what stands on the page already. */
export function aloud(text) {
  byId("aloud").textContent = text;
}

/** Puts a dialog up; `build(close)` gives its content. Resolves with what `close` was given. */
export function ask(title, build) {
  const dialog = byId("dialog");
  return new Promise((resolve) => {
    let answer;
    const close = (value) => {
      answer = value;
      dialog.close();
    };
    dialog.replaceChildren(
      // The first thing read out, and the top of what is seen.
      h("h2", { id: "dialog-title", tabindex: "-1", autofocus: true }, title),
      ...[build(close)].flat(),
    );
    dialog.addEventListener("close", () => resolve(answer), { once: true });
    dialog.showModal();
  });
}

export const capital = (text) => text.charAt(0).toUpperCase() + text.slice(1);
