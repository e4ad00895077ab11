// Metric or US measures, by the phone's language unless the person says otherwise.

const US_REGIONS = new Set(["US", "LR", "MM"]);

let chosen = "phone";

export function choose(units) {
  chosen = ["us", "metric"].includes(units) ? units : "phone";
}

export const choice = () => chosen;

/** `us` or `metric`. */
export function units() {
  if (chosen !== "phone") return chosen;
  try {
    const region = new Intl.Locale(navigator.language || "en-US").maximize().region;
    return US_REGIONS.has(region) ? "us" : "metric";
  } catch {
    return "metric";
  }
}

const GRAMS_PER_OUNCE = 28.349523125;

/** A weight as people there say it. */
export function weight(grams) {
  if (units() === "us") {
    const ounces = grams / GRAMS_PER_OUNCE;
    if (ounces < 0.1) return "under 0.1 oz";
    return ounces < 0.95 ? `${ounces.toFixed(1)} oz` : `${ounces < 10 ? trim(ounces.toFixed(1)) : Math.round(ounces)} oz`;
  }
  if (grams < 0.5) return "under 1 g";
  return `${grams < 10 ? Math.round(grams) : Math.round(grams / 5) * 5} g`;
}

const trim = (text) => text.replace(/\.0$/, "");

/** How much of a food, in words: pieces and cups with the weight; by weight alone where cups are not used. */
export function amount(size, grams) {
  const pieces = size && !/\b(cups?|tbsp|tsp|oz|fl oz)\b/.test(size);
  const told = size && (pieces || units() === "us");
  if (!(grams > 0)) return size || "no amount";
  if ((told && /\boz\b/.test(size)) || /pinch/.test(size)) return size;
  return told ? `${size}, ${weight(grams)}` : weight(grams);
}

/** kcal to the next ten, with thousands parted; what is less, to the next one. */
export const kcal = (value) => (Math.abs(value) < 10 ? Math.round(value) : Math.round(value / 10) * 10).toLocaleString("en");

/** Fractions as they are printed. */
export const fractions = (text) => text.replace(/(\d) ?(?=[13]\/[24]\b)|\b([13]\/[24])\b/g, (all, whole) => whole ?? SIGNS[all] ?? all);
const SIGNS = { "1/2": "½", "1/4": "¼", "3/4": "¾" };

/** An amount of a group or limit. */
export function figure(unit, value) {
  if (unit === "kcal") return kcal(value);
  if (unit === "mg") return (Math.round(value / 10) * 10).toLocaleString("en");
  if (unit === "g") return String(Math.round(value));
  return trim(value.toFixed(1));
}

export const percent = (share) => `${Math.round(share * 100)} %`;

/** The moment on this phone's clock, as the engine reads it. */
export function now(date = new Date()) {
  const two = (number) => String(Math.abs(number)).padStart(2, "0");
  const minutes = -date.getTimezoneOffset();
  const offset = `${minutes < 0 ? "-" : "+"}${two(Math.trunc(minutes / 60))}:${two(minutes % 60)}`;
  const zone = Intl.DateTimeFormat().resolvedOptions().timeZone;
  const day = `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`;
  const time = `${two(date.getHours())}:${two(date.getMinutes())}:${two(date.getSeconds())}`;
  return `${day}T${time}${offset}[${zone || offset}]`;
}
