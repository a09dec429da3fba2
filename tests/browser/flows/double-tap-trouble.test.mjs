import assert from "node:assert/strict";
import { judged } from "./trembling.mjs";

/** Taps a button that is no answer of this card's own, and waits for what it leads to. */
async function aside(person, key) {
  const before = await person.look();
  await person.tap(key);
  return person.changed(before);
}

judged("two clicks on Something is wrong, a slip, a spike without a beat and NO BEATS are one", async (person) => {
  await person.carryOn((card) => /OUTPUT down/.test(card.title) && card.keys.includes("every-spike"));
  await aside(person, "wrong");
  await aside(person, "back");
  await aside(person, "slip");
  await aside(person, "back");
  await aside(person, "spike-without-beat");
  const emergency = await aside(person, "no-beats");
  assert.match(emergency.title, /OUTPUT/);
});
