import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";
import { until } from "../driver.mjs";
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
  const said = () => app.script("return document.getElementById('card').innerText;");
  const untilSaid = (pattern) => until(`${pattern}`, async () => pattern.test(await said()) && said());

  await app.click("welcomed");
  for (const key of ["settings", "rules", "new-rules"]) await unhurried(app, key);

  await handIn(app, "#rules", "large.json", "{}", 21_000_000);
  await untilSaid(/longer than 64 kB/);

  await handIn(app, "#rules", "wrong.json", JSON.stringify({ ...UNIT, own_step: 40 }));
  assert.match(await untilSaid(/own_step/), /40 stands there; 5 to 10 .*ACCCN/s);

  await handIn(app, "#rules", "ward-7.json", JSON.stringify(UNIT));
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
  const again = await until("the rules after a new start", () => ward.app.script("return document.getElementById('card').innerText || null;"));
  assert.match(again, /ward-7-invented/, "what was approved is there after a new start");
});

/** Past the time in which a tap counts as the second half of a double tap. */
async function unhurried(app, key) {
  await app.find(`[data-key="${key}"]`);
  await new Promise((done) => setTimeout(done, 120));
  await app.click(key);
}

/** What the tablet's own file dialog does: it puts the chosen file into the field. */
async function handIn(app, selector, name, text, bytes = 0) {
  await app.find(selector);
  await app.script(
    `const [selector, name, text, bytes] = arguments;
     const chosen = new DataTransfer();
     chosen.items.add(new File([text.padEnd(bytes)], name, { type: "application/json" }));
     const field = document.querySelector(selector);
     field.files = chosen.files;
     field.dispatchEvent(new Event("change", { bubbles: true }));`,
    selector,
    name,
    text,
    bytes,
  );
}
