import assert from "node:assert/strict";
import { test } from "node:test";
import { admit, tablet } from "./ward.mjs";

test("a whole atrial check in landscape: mV is set to half the signal", async (t) => {
  const ward = await tablet(t, { size: [1280, 800] });
  const atrium = { heart: { own: 62, captures: 1.6, signal: 1.8 }, found: { output: "8.0", rate: "90", mv: "1.0" } };
  const person = await admit(ward, atrium, { chamber: "atrium" });

  const result = await person.carryOn((card) => card.keys.includes("code"));
  assert.match(result.text, /Capture threshold\s+1\.6 mA/);
  assert.match(result.text, /Sensing threshold\s+1\.8 mV/);
  // 2 to 3 times 1.6: up to 4.8. Below half of 1.8: 0.8, the position under 0.9.
  assert.deepEqual(person.dials, { output: "4.8", rate: "90", mv: "0.8" });
});
