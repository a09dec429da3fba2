import assert from "node:assert/strict";
import { test } from "node:test";
import { focus, keyboardOnly } from "./keys.mjs";
import { admitted, QUIET, somebody, tablet } from "./ward.mjs";

const HIGHEST = "20.0";

test("by the keyboard alone: NO BEATS at a dial card until beats are back and read, then Stop in the next check", async (t) => {
  const ward = await tablet(t, { size: [800, 1280] });
  const person = await keyboardOnly(somebody(ward));
  const take = (key) => person.answered(key);
  await admitted(person, "ventricle");

  await person.carryOn(rateIsDown);
  const emergency = await take("no-beats");
  assert.match(emergency.title, /OUTPUT/);
  assert.match(emergency.stands, new RegExp(HIGHEST));
  await take("stands");
  const back = await take("beats-again");
  assert.match(back.title, /Restore/);
  assert.match(back.text, /RATE\s+80/);
  await person.carryOn(isReading, { mostCards: 3 });
  await person.carryOn(isOver, { mostCards: 12 });

  await take("bed");
  await take("start-1");
  await person.carryOn(rateIsDown);
  assert.notEqual(person.dials.rate, QUIET.found.rate);
  const stopped = await take("stop");
  assert.match(stopped.title, /Restore/);
  assert.match(stopped.text, /RATE\s+80/);
  await person.carryOn(isReading, { mostCards: 3 });
  assert.equal(person.dials.rate, QUIET.found.rate);
  const over = await person.carryOn(isOver, { mostCards: 12 });
  assert.match(over.text, /[Ss]topped/);
  await focus(ward.app);
});

/** A dial is away from where it was found, and the patient is watched at it. */
function rateIsDown(card) {
  return /RATE down/.test(card.title) && card.stands === null;
}

function isReading(card) {
  return card.fields.includes("output");
}

function isOver(card) {
  return card.keys.includes("code") || card.keys.some((key) => key.startsWith("start-"));
}
