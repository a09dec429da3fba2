import assert from "node:assert/strict";
import { test } from "node:test";
import { admit, tablet } from "./ward.mjs";

test("a whole ventricular check, from the first page to the handover", async (t) => {
  const ward = await tablet(t, { size: [800, 1280] });
  const person = await admit(ward);
  const done = await person.carryOn((card) => /threshold/i.test(card.text) && card.keys.includes("bed"));
  assert.match(done.text, /1\.2/);
});
