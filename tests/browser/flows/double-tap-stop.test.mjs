import assert from "node:assert/strict";
import { test } from "node:test";
import { judged, steadyTablet, trembling } from "./trembling.mjs";
import { admit } from "./ward.mjs";

judged("two clicks on Stop are one, and on each answer of the way back", 3, async (person) => {
  await person.carryOn((card) => /mV up/.test(card.title) && card.keys.includes("every-beat-marked"));
  await person.answered("stop");
  await person.carryOn((card) => card.keys.includes("code") || card.keys.some((key) => key.startsWith("start-")));
});

test("two clicks on the answer that opens the first dial card are one", async (t) => {
  const ward = await steadyTablet(t, 3);
  const person = await admit(ward);
  const reading = await person.carryOn((card) => card.fields.includes("output"));
  const finger = await trembling(person);
  await person.fill(reading.fields);
  const again = await person.answered("done");
  assert.match(again.text, /Nothing to compare with/);
  await person.fill(again.fields);
  const after = await person.answered("done");
  await person.look().then(finger.last);
  if (finger.wasTooSlow()) return t.skip(`this machine was too busy: ${finger.widest()} ms between two taps`);
  assert.ok(after.keys.includes("every-beat-paced"), after.text);
});
