// A dish in the fragment of an address: browsers send no fragment to any server.

const MARK = "#dish=";
/** Longer addresses are cut by some programs that pass them on. */
const LONGEST = 16000;

const base64url = (bytes) =>
  btoa(String.fromCharCode(...bytes)).replaceAll("+", "-").replaceAll("/", "_").replace(/=+$/, "");

/** The address that shows a dish. */
export function address(dish) {
  const bytes = new TextEncoder().encode(JSON.stringify(dish));
  return `${location.origin}${location.pathname}${MARK}${base64url(bytes)}`;
}

/** The dish in a fragment; nothing where there is none, `null` where it cannot be read. */
export function dishIn(fragment) {
  if (!fragment.startsWith(MARK)) return undefined;
  if (fragment.length > LONGEST) return null;
  try {
    const text = atob(fragment.slice(MARK.length).replaceAll("-", "+").replaceAll("_", "/"));
    const bytes = Uint8Array.from(text, (sign) => sign.charCodeAt(0));
    const dish = JSON.parse(new TextDecoder("utf-8", { fatal: true }).decode(bytes));
    return dish && typeof dish === "object" ? dish : null;
  } catch {
    return null;
  }
}
