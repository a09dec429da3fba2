import assert from "node:assert/strict";
import { test } from "node:test";
import { byKey } from "../driver.mjs";
import { admit, QUIET, tablet } from "./ward.mjs";

// The guard against a second tap is 300 ms of the session's clock: here that clock runs true.
const GUARD_MS = 300;

for (const gapMs of [80, 200]) {
  test(`two clicks ${gapMs} ms apart on each answer are one`, async (t) => {
    const ward = await tablet(t, { size: [800, 1280], timesFaster: 1 });
    const person = await admit(ward, { ...QUIET, heart: { ...QUIET.heart, own: 75 } });
    const widest = await twoTaps(person, gapMs, (card) => !card.fields.includes("output"));

    const path = [];
    await person.carryOn((card) => {
      if (path.at(-1)?.card !== Number(card.card)) path.push({ card: Number(card.card), title: card.title });
      return /Own beats only/.test(card.title) || widest() >= GUARD_MS;
    });
    if (widest() >= GUARD_MS) return t.skip(tooBusy(gapMs, widest()));
    const steps = path.slice(1).map(({ card }, at) => card - path[at].card);
    assert.deepEqual([...new Set(steps)], [1], `each answer is one event: ${JSON.stringify(path)}`);
  });
}

test("two clicks on the answer that opens the first dial card are one", async (t) => {
  const ward = await tablet(t, { size: [800, 1280], timesFaster: 1 });
  const person = await admit(ward);
  const widest = await twoTaps(person, 80, (card) => card.fields.includes("output"));
  const reading = await person.carryOn((card) => card.fields.includes("output"));
  await person.fill(reading.fields);
  await person.press("done");
  if (widest() >= GUARD_MS) return t.skip(tooBusy(80, widest()));
  const again = await person.changed(reading);
  assert.match(again.text, /Nothing to compare with/);
  await person.fill(again.fields);
  await person.press("done");
  if (widest() >= GUARD_MS) return t.skip(tooBusy(80, widest()));
  const after = await person.changed(again);
  assert.ok(after.keys.includes("every-beat-paced"), after.text);
});

const tooBusy = (gapMs, wasMs) => `this machine was too busy: ${gapMs} ms became ${wasMs} ms`;

/** Gives the person a trembling finger on these cards; returns how wide its widest gap really was. */
async function twoTaps(person, gapMs, trembles) {
  const { app } = person;
  await app.script("window.taps = []; addEventListener('pointerdown', (tap) => taps.push(tap.timeStamp), true);");
  let widest = 0;
  person.press = async (key) => {
    await app.press(byKey(key), [gapMs]);
    const [first, second] = await app.script("return taps.slice(-2);");
    widest = Math.max(widest, second - first);
  };
  person.click = async (key) => (trembles(await person.look()) ? person.press(key) : app.click(key));
  return () => widest;
}
