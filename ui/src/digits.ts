// Typed dial positions: digits and one point; a comma counts as a point.

/** Keeps what a dial position may hold. */
export function filtered(typed: string, maxChars: number): string {
  const pointed = typed.replaceAll(",", ".").replace(/[^0-9.]/g, "");
  const point = pointed.indexOf(".");
  const once = point < 0 ? pointed : pointed.slice(0, point + 1) + pointed.slice(point).replaceAll(".", "");
  return once.slice(0, maxChars);
}

export function append(value: string, key: string): string {
  return value + key;
}

export function erase(value: string): string {
  return value.slice(0, -1);
}
