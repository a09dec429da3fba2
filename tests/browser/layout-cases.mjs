// Which golden views are drawn in which conditions: each card meets every value and any two values meet, or everything.
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { join } from "node:path";

const VIEWS = fileURLToPath(new URL("../../scenarios/views", import.meta.url));

export const CONDITIONS = {
  size: ["800x1280", "1280x800", "600x960", "390x844"],
  light: ["Day", "Night"],
  text: [100, 150, 200],
  hand: ["Left", "Right"],
  language: ["english", "pseudo"],
};

/** Name and view of every golden card, in English. */
export function goldenViews(language = "english") {
  const ending = `.${language}.json`;
  return readdirSync(VIEWS)
    .filter((name) => name.endsWith(ending))
    .map((name) => ({ name: name.slice(0, -ending.length), view: JSON.parse(readFileSync(join(VIEWS, name), "utf8")) }));
}

/** Every combination of these conditions. */
function everything(conditions) {
  return Object.entries(conditions).reduce(
    (cases, [name, values]) => cases.flatMap((one) => values.map((value) => ({ ...one, [name]: value }))),
    [{}],
  );
}

/** All conditions in which a card is drawn at full width, by size. */
export function allCases() {
  return bySize(everything(CONDITIONS));
}

/**
 * The conditions of one card (its place in the list): each size once, each other value at least once. Over all
 * cards any two values of any two conditions meet, and each card meets every value.
 */
export function casesOfCard(index) {
  const turned = (row, by) => (Math.floor(index / by) + row) % 4;
  return CONDITIONS.size.map((size, row) => ({
    size,
    light: CONDITIONS.light[turned(row, 1) & 1],
    text: [100, 200, 150, 200][turned(row, 2)],
    hand: CONDITIONS.hand[turned(row, 4) >> 1],
    language: CONDITIONS.language[[0, 1, 1, 0][turned(row, 8)]],
  }));
}

/** Pairs of values that no case of these brings together. */
export function unmetPairs(cases) {
  const met = new Set(cases.flatMap(pairsOf));
  return [...new Set(everything(CONDITIONS).flatMap(pairsOf))].filter((pair) => !met.has(pair));
}

function pairsOf(one) {
  const parts = Object.entries(one).map(([name, value]) => `${name}=${value}`);
  return parts.flatMap((part, index) => parts.slice(index + 1).map((other) => `${part}&${other}`));
}

function bySize(cases) {
  return Object.fromEntries(CONDITIONS.size.map((size) => [size, cases.filter((one) => one.size === size)]));
}

/** The view as this case shows it; the language is that of the file. */
export function inCase(view, { light, text, hand }) {
  return { ...view, look: { ...view.look, light, text_percent: text, hand } };
}
