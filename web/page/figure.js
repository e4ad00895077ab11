// The drawing of a plate with its numbers, and the rows of food groups and limits.

import { capital, drawing, h } from "./dom.js";
import { amount } from "./units.js";

/** A drawing; `onFood(number)` where its foods can be tapped. */
export function plate(drawn, { sizes, onFood } = {}) {
  const svg = drawing(drawn.svg);
  const scene = h("div", { class: "scene" }, svg);
  scene.style.aspectRatio = drawn.narrow;
  svg.style.marginTop = drawn.up;
  for (const label of drawn.labels) {
    const number = h(onFood ? "button" : "span", {
      class: "num",
      type: onFood && "button",
      "aria-hidden": onFood ? undefined : "true",
      "aria-label": onFood && `${label.number}: ${label.name}`,
      onclick: onFood && (() => onFood(label.number)),
    }, String(label.number));
    number.style.left = label.x;
    number.style.top = label.y;
    scene.append(number);
  }
  const list = h("ol", { class: "labels" }, drawn.labels.map((label, at) => {
    const size = sizes?.[at] ?? label.size;
    return h("li", { value: label.number }, h("b", {}, h("bdi", {}, label.name)), ` ${size ? `${size}, ` : ""}${label.group}`);
  }));
  return h("div", { class: "frame" }, scene, onFood ? null : list);
}

/** A bar of the engine's; words beside it say the same. */
export const bar = (svg) => (svg ? drawing(svg) : null);

function measure(row) {
  return [
    bar(row.bar),
    h("span", { class: row.beyond ? "words beyond" : "words" }, row.beyond ? h("span", {}, h("span", { "aria-hidden": "true" }, "▲ "), "beyond: ") : null, row.words),
    row.figures ? h("span", { class: "figures" }, row.figures) : null,
  ];
}

/** Groups and limits of one dish. */
export function shares(page) {
  return h("table", { class: "shares" },
    h("caption", {}, "Parts of one day’s share; the line across a bar is the whole of it. In brackets the 80 % range.", page.absent ? ` Not on this plate: ${page.absent}.` : ""),
    h("tbody", {}, page.amounts.map((row) => h("tr", {}, h("th", { scope: "row" }, row.name), h("td", {}, measure(row))))),
  );
}

/** Groups and limits of two dishes facing each other. */
export function facing(rows, heads) {
  return h("table", { class: "facing" },
    h("caption", {}, "Parts of one day’s share, in brackets the 80 % range."),
    h("thead", {}, h("tr", {}, h("td"), heads.map((head) => h("th", { scope: "col" }, ...head)))),
    h("tbody", {}, rows.map((row) => [
      h("tr", {}, h("th", { scope: "row", rowspan: "2" }, row.name), row.cells.map((cell) => h("td", {}, measure(cell)))),
      h("tr", {}, h("td", { colspan: "2", class: "soft" }, row.verdict)),
    ])),
  );
}

/** Sizes of the labels in the person's own measures. */
export function ownSizes(answer) {
  return answer.labelled.map((at) => {
    const component = answer.components[at];
    return component && component.grams ? amount(component.size, component.grams.likely) : undefined;
  });
}

export { capital };
