import assert from "node:assert/strict";
import { judged } from "./trembling.mjs";

judged("two clicks on Something is wrong, a slip, a spike without a beat and NO BEATS are one", 2, async (person) => {
  await person.carryOn((card) => /OUTPUT down/.test(card.title) && card.keys.includes("every-spike"));
  await person.answered("wrong");
  await person.answered("back");
  await person.answered("slip");
  await person.answered("back");
  await person.answered("spike-without-beat");
  const emergency = await person.answered("no-beats");
  assert.match(emergency.title, /OUTPUT/);
});
