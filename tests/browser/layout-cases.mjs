// Which golden views are drawn in which conditions: every pair of conditions once, or everything.
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { join } from "node:path";

const VIEWS = fileURLToPath(new URL("../../scenarios/views", import.meta.url));

export const CONDITIONS = {
  size: ["800x1280", "1280x800", "600x960", "390x844"],
  light: ["Day", "Night"],
  text: [100, 150, 200],
  hand: ["Left", "Right"],
  language: ["english", "longer"],
};

/** Name and view of every golden file. */
export function goldenViews() {
  return readdirSync(VIEWS)
    .filter((name) => name.endsWith(".json"))
    .map((name) => ({ name: name.slice(0, -5), view: JSON.parse(readFileSync(join(VIEWS, name), "utf8")) }));
}

/** Every combination of the conditions, sizes changing slowest. */
export function everything() {
  return Object.entries(CONDITIONS).reduce(
    (cases, [name, values]) => cases.flatMap((one) => values.map((value) => ({ ...one, [name]: value }))),
    [{}],
  );
}

/** A small set in which any two values of any two conditions meet (greedy, so always the same). */
export function pairwise() {
  const all = everything();
  const open = new Set(all.flatMap(pairsOf));
  const chosen = [];
  while (open.size > 0) {
    const next = all.reduce((best, one) => (fresh(one, open) > fresh(best, open) ? one : best));
    pairsOf(next).forEach((pair) => open.delete(pair));
    chosen.push(next);
  }
  return chosen.sort((a, b) => CONDITIONS.size.indexOf(a.size) - CONDITIONS.size.indexOf(b.size));
}

function fresh(one, open) {
  return pairsOf(one).filter((pair) => open.has(pair)).length;
}

function pairsOf(one) {
  const parts = Object.entries(one).map(([name, value]) => `${name}=${value}`);
  return parts.flatMap((part, index) => parts.slice(index + 1).map((other) => `${part}&${other}`));
}

/** The view as this case shows it. */
export function inCase(view, { light, text, hand, language }) {
  const worded = language === "longer" ? lengthened(view) : view;
  return { ...worded, look: { ...worded.look, light, text_percent: text, hand } };
}

/** What is never a sentence: names, codes, and figures as a dial prints them. */
const NOT_WORDS = new Set(["key", "id", "kind", "role", "tone", "command", "value", "figure", "unit", "modules", "look", "dials"]);

/** A language about a third longer: vowels doubled and accented, as pseudo-languages do. */
function lengthened(value, name) {
  if (NOT_WORDS.has(name)) return value;
  if (typeof value === "string") return value.replace(/[a-z]{3,}/gi, longer);
  if (Array.isArray(value)) return value.map((one) => lengthened(one, name));
  if (value === null || typeof value !== "object") return value;
  return Object.fromEntries(Object.entries(value).map(([key, one]) => [key, lengthened(one, key)]));
}

const ACCENTED = { a: "á", e: "é", i: "í", o: "ó", u: "ú" };

/** Words in capitals stand on the generator as they are. */
function longer(word) {
  if (word === word.toUpperCase()) return word;
  let grown = 0;
  return word.replace(/[aeiou]/g, (vowel) => (grown++ % 2 === 0 ? ACCENTED[vowel] + vowel : ACCENTED[vowel]));
}
