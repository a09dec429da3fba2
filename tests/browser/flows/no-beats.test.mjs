import assert from "node:assert/strict";
import { test } from "node:test";
import { admit, tablet } from "./ward.mjs";

test("NO BEATS at minimum output asks for OUTPUT first, in one act", async (t) => {
  const ward = await tablet(t, { size: [390, 844] });
  const person = await admit(ward);
  await person.carryOn((next) => next.keys.includes("no-spikes"));
  assert.equal(person.dials.output, "0.2");

  const emergency = await person.answered("no-beats");
  assert.match(emergency.title, /OUTPUT/);
  // Output was not seen to capture by itself in this check: 6.0 was, at the first look.
  assert.match(emergency.text, /6\.0/);
  assert.ok(emergency.keys.includes("beats-again"));
});
