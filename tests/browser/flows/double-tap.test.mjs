import assert from "node:assert/strict";
import { test } from "node:test";
import { byKey } from "../driver.mjs";
import { admit, QUIET, tablet } from "./ward.mjs";

// The guard against a second tap is 300 ms of the session's clock: here that clock runs true.
const GUARD_MS = 300;
/** Taken in turns. */
const GAPS_MS = [80, 200];
/** Of a machine so busy that two taps come as far apart as a person's. */
const TRIES = 2;

/** The card whose answer is two events by itself: the last answer, and the record of the check with it. */
const LAST = "Before you leave";

const FASTER_OWN = { ...QUIET, heart: { ...QUIET.heart, own: 75 } };

judged("two clicks on each answer are one, from the first card of a check to its code", async (person) => {
  await person.carryOn((card) => card.keys.includes("code"));
  await person.click("code");
  await person.app.find("#card .qr svg");
});

judged("two clicks on Stop are one, and on each answer of the way back", async (person) => {
  await person.carryOn((card) => /mV up/.test(card.title) && card.keys.includes("every-beat-marked"));
  const before = await person.look();
  await person.click("stop");
  await person.changed(before);
  person.dials = { ...FASTER_OWN.found };
  await person.carryOn((card) => card.keys.includes("code") || card.keys.some((key) => key.startsWith("start-")));
});

/** Runs a story with a finger that taps twice: each answer must be one event, and the next card its own. */
function judged(name, story) {
  test(name, async (t) => {
    for (let tries = 1; tries <= TRIES; tries += 1) {
      const ward = await tablet(t, { size: [800, 1280], timesFaster: 1 });
      const person = await admit(ward, FASTER_OWN);
      const finger = await trembling(person);
      try {
        await story(person);
      } catch (fault) {
        if (!finger.wasTooSlow()) throw fault;
      }
      await person.look().then(finger.last);
      if (!finger.wasTooSlow()) {
        assert.deepEqual(finger.doubled(), [], "each answer is one event");
        assert.ok(finger.taps() >= 20, `only ${finger.taps()} answers`);
        return t.diagnostic(`${finger.taps()} answers tapped twice`);
      }
      t.diagnostic(`try ${tries}: this machine made one pair of taps ${finger.widest()} ms wide`);
      await ward.app.close();
    }
    return t.skip("this machine was too busy to tap twice within the guard");
  });
}

/** Gives the person a finger that taps each answer twice; cards count their events. */
async function trembling(person) {
  const { app } = person;
  await app.script("window.taps = []; addEventListener('pointerdown', (tap) => taps.push(tap.timeStamp), true);");
  const at = [];
  let widest = 0;
  person.click = async (key) => {
    const card = await person.look();
    at.push({ card: Number(card.card), title: card.title, key });
    await app.press(byKey(key), [GAPS_MS[at.length % GAPS_MS.length]]);
    const [first, second] = await app.script("return taps.slice(-2);");
    at.at(-1).gapMs = Math.round(second - first);
    widest = Math.max(widest, second - first);
  };
  const after = () => at.slice(1).map((tap, index) => ({ ...at[index], to: tap.card }));
  const doubled = () => after().filter(({ card, to, title }) => to !== card + (title === LAST ? 2 : 1));
  return {
    /** Where the next tap would be: the card that the last one led to. */
    last: (card) => at.push({ card: Number(card.card), title: card.title }),
    taps: () => at.length,
    widest: () => Math.round(widest),
    doubled,
    /** Two taps that were taken, and by their own time stamps were no double tap. */
    wasTooSlow: () => doubled().some(({ gapMs }) => gapMs >= GUARD_MS),
  };
}

test("two clicks on the answer that opens the first dial card are one", async (t) => {
  const ward = await tablet(t, { size: [800, 1280], timesFaster: 1 });
  const person = await admit(ward);
  const reading = await person.carryOn((card) => card.fields.includes("output"));
  const finger = await trembling(person);
  await person.fill(reading.fields);
  await person.click("done");
  const again = await person.changed(reading);
  assert.match(again.text, /Nothing to compare with/);
  await person.fill(again.fields);
  await person.click("done");
  const after = await person.changed(again);
  if (finger.wasTooSlow()) return t.skip(`this machine was too busy: ${finger.widest()} ms between two taps`);
  assert.ok(after.keys.includes("every-beat-paced"), after.text);
});
