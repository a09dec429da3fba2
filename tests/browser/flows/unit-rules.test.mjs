import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";
import { handIn, unhurried } from "./desk.mjs";
import { untilSaid as saidOn } from "./said.mjs";
import { switchOn, tablet } from "./ward.mjs";

const EXAMPLE = JSON.parse(readFileSync(new URL("../../../scenarios/rules/example.json", import.meta.url), "utf8"));
// Inventions of ours.
const UNIT = {
  ...EXAMPLE,
  id: "ward-7-invented",
  example: false,
  approval: { by: "Dr Example", document: "Pacing procedure 3 (invented)", on: "2026-01-10", review: "2099-01-10" },
  own_step: 5,
};

test("a unit hands in its rules and approves them", async (t) => {
  const ward = await tablet(t, { size: [800, 1280] });
  const { app } = ward;
  const untilSaid = (pattern) => saidOn(app, pattern);

  await app.click("welcomed");
  for (const key of ["settings", "rules", "new-rules"]) await unhurried(app, key);

  await handIn(app, "#rules", Buffer.from("{}"), { padded: 21_000_000 });
  await untilSaid(/longer than 64 kB/);

  await handIn(app, "#rules", Buffer.from(JSON.stringify({ ...UNIT, own_step: 40 })));
  assert.match(await untilSaid(/own_step/), /40 stands there; 5 to 10 .*ACCCN/s);

  await handIn(app, "#rules", Buffer.from(JSON.stringify(UNIT)));
  const beside = await untilSaid(/in force now/);
  assert.match(beside, /5\/min a step/);
  assert.match(beside, /in force now: 10\/min a step/);
  assert.match(beside, /Example rules/, "the examples are in force until somebody approves");

  await unhurried(app, "approve");
  await app.press("#name");
  await app.keys("Nurse Example");
  await app.press("#role");
  await app.keys("charge nurse");
  await unhurried(app, "approve");
  const inForce = await untilSaid(/Rules in force: ward-7-invented/);
  assert.match(inForce, /Nurse Example, charge nurse/);
  assert.doesNotMatch(inForce, /Example rules/);

  await app.close();
  await switchOn(ward);
  const again = await saidOn(ward.app, /\S/);
  assert.match(again, /ward-7-invented/, "what was approved is there after a new start");
});
