import assert from "node:assert/strict";
import { readdirSync, readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import { test } from "node:test";
import { handIn, unhurried } from "./desk.mjs";
import { untilSaid } from "./said.mjs";
import { admit, switchOn, tablet } from "./ward.mjs";

test("a wire is exported, the tablet backed up, and an empty tablet restores it", async (t) => {
  const ward = await tablet(t, { size: [800, 1280] });
  const person = await admit(ward);
  const { app } = ward;
  await person.carryOn((card) => card.keys.includes("code"));
  await person.tap("history");
  await untilSaid(app, /Capture threshold over days/);
  await person.tap("export");
  await person.tap("export");
  const place = below(await untilSaid(app, /They lie in this folder:/), "They lie in this folder:");
  assert.deepEqual(readdirSync(place).sort(), ["between.csv", "bundle.json", "checks.csv", "newest.pdf"]);
  assert.equal(readFileSync(join(place, "checks.csv"), "utf8").trim().split("\r\n").length, 2);
  assert.equal(JSON.parse(readFileSync(join(place, "bundle.json"), "utf8")).resourceType, "Bundle");
  if (process.env.KEEP_PICTURES) await app.screenshot(join(process.env.KEEP_PICTURES, "exported.png"));

  for (const key of ["back", "bed", "beds", "settings", "keeping", "backup", "back-up"]) await person.tap(key);
  const backup = below(await untilSaid(app, /The backup is written/), "It is this file:");
  assert.ok(statSync(backup).size > 1_000);
  const bytes = readFileSync(backup);

  const other = await tablet(t, { size: [800, 1280] });
  for (const key of ["welcomed", "settings", "keeping", "restore"]) await unhurried(other.app, key);
  await handIn(other.app, "#backup", bytes.subarray(0, bytes.length / 2));
  await untilSaid(other.app, /cut short/);
  const flipped = Buffer.from(bytes);
  flipped[flipped.length - 9] ^= 4;
  await handIn(other.app, "#backup", flipped);
  await untilSaid(other.app, /not as it was written/);
  await handIn(other.app, "#backup", bytes);
  await untilSaid(other.app, /Restore this backup/);
  await unhurried(other.app, "restore");
  await untilSaid(other.app, /Bay 2/);
  await other.app.close();
  await switchOn(other);
  assert.match(await untilSaid(other.app, /Bay 2/), /OUTPUT/, "the check is there after a new start");
});

test("what is kept of a patient who has left is shown, and goes no sooner than the rule lets it", async (t) => {
  const ward = await tablet(t, { size: [800, 1280] });
  const person = await admit(ward);
  const { app } = ward;
  await person.carryOn((card) => card.keys.includes("code"));
  for (const key of ["bed", "more", "empty-bed", "empty", "settings", "keeping"]) await person.tap(key);
  assert.match(await untilSaid(app, /Who has left/), /Bay 2[\s\S]*may be erased from/);
  await person.tap("erase-0");
  await untilSaid(app, /The unit's rule lets it go from/);
  assert.equal(await app.has('[data-key="erase"]'), false);
  if (process.env.KEEP_PICTURES) await app.screenshot(join(process.env.KEEP_PICTURES, "not-yet.png"));
  assert.ok(holding(ward.folder, ["Bay 2", "Dr Example"]).length > 0);
  await app.close();

  ward.aheadDays = 31;
  const later = await switchOn(ward);
  await untilSaid(later, /Erase what is kept/);
  await later.press("#name");
  await later.keys("E Raser");
  if (process.env.KEEP_PICTURES) await later.screenshot(join(process.env.KEEP_PICTURES, "erase.png"));
  await unhurried(later, "erase");
  await untilSaid(later, /Nothing is kept of a patient who has left/);
  await unhurried(later, "erased");
  const proof = await untilSaid(later, /entries, by/);
  assert.match(proof, /E Raser/);
  assert.match(proof, /30 days/);
  if (process.env.KEEP_PICTURES) await later.screenshot(join(process.env.KEEP_PICTURES, "erased.png"));
  assert.deepEqual(holding(ward.folder, ["Dr Example"]), [], "while it runs");
  await later.close();
  assert.deepEqual(holding(ward.folder, ["Dr Example"]), []);
});

/** Files of the folder, at any depth, in which one of the words stands. */
function holding(folder, words) {
  const all = readdirSync(folder, { recursive: true, withFileTypes: true }).filter((one) => one.isFile());
  const bytes = (one) => readFileSync(join(one.parentPath, one.name));
  return all.filter((one) => words.some((word) => bytes(one).includes(word))).map((one) => one.name);
}

/** The line below the one with these words. */
function below(said, words) {
  const lines = said.split("\n").filter((line) => line.trim() !== "");
  return lines[lines.findIndex((line) => line.includes(words)) + 1].replaceAll("\u200b", "").trim();
}
