import assert from "node:assert/strict";
import { test } from "node:test";
import { keyboardOnly } from "./keys.mjs";
import { admitted, QUIET, somebody, tablet } from "./ward.mjs";

test("a whole check by the keyboard alone", async (t) => {
  const ward = await tablet(t, { size: [1280, 800] });
  const person = await keyboardOnly(somebody(ward, { ...QUIET, heart: { ...QUIET.heart, own: 75 } }));
  await admitted(person, "ventricle");

  const result = await person.carryOn((card) => card.keys.includes("code"));
  assert.match(result.text, /Capture threshold\s+1\.2 mA/);
  assert.deepEqual(person.dials, { output: "3.6", rate: "80", mv: "2.0" });
});
