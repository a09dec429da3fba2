// A finger that taps every answer more than once: each must be one event, and the next card its own.
import assert from "node:assert/strict";
import { test } from "node:test";
import { until } from "../processes.mjs";
import { middle, touched } from "./glass.mjs";
import { admit, QUIET, tablet } from "./ward.mjs";

/** So long after a card has come a tap is the second half of one on the card before. */
const GUARD_MS = 300;
/** After the first tap of each answer: a second and a third, so that every answer meets both. */
const AFTER_MS = [80, 200];
/** Between one tap and the next. */
const GAPS_MS = AFTER_MS.map((at, index) => at - (AFTER_MS[index - 1] ?? 0));
/** Of a machine so busy that two taps come as far apart as a person's. */
const TRIES = 3;

/** The card whose answer is two events by itself: the last answer, and the record of the check with it. */
const LAST = "Before you leave";

const FASTER_OWN = { ...QUIET, heart: { ...QUIET.heart, own: 75 } };

/** A tablet whose watches pass sooner, and on which a double tap is as short as in the world. */
export function steadyTablet(t, timesFaster) {
  return tablet(t, { size: [800, 1280], timesFaster, trueTaps: true });
}

/**
 * Runs a story with that finger: each answer must be one event, and the next card its own. No watch that runs out by
 * itself may do so between two taps: it would be an event too.
 */
export function judged(name, timesFaster, story, fewestTaps = 20) {
  test(name, async (t) => {
    for (let tries = 1; tries <= TRIES; tries += 1) {
      const ward = await steadyTablet(t, timesFaster);
      const person = await admit(ward, FASTER_OWN);
      const finger = await trembling(person);
      try {
        await story(person);
      } catch (fault) {
        // The tap that made the story go wrong is the last one.
        await person.look().then(finger.last);
        if (!finger.wasTooSlow()) throw fault;
        t.diagnostic(`try ${tries}: ${finger.widest()} ms`);
        await ward.app.close();
        continue;
      }
      await person.look().then(finger.last);
      if (!finger.wasTooSlow()) {
        assert.deepEqual(finger.doubled(), [], "each answer is one event");
        assert.ok(finger.taps() >= fewestTaps, `only ${finger.taps()} answers`);
        return t.diagnostic(`${finger.taps()} answers, each tapped ${1 + AFTER_MS.length} times within ${finger.widest()} ms`);
      }
      t.diagnostic(`try ${tries}: this machine made the taps of one answer ${finger.widest()} ms wide`);
      await ward.app.close();
    }
    return t.skip("this machine was too busy to tap that often within the guard");
  });
}

/** Gives the person that finger; cards count their events. */
export async function trembling(person) {
  const { app } = person;
  const glass = await touched();
  await app.script("window.taps = []; addEventListener('pointerdown', (tap) => taps.push(tap.timeStamp), true);");
  const at = [];
  let widest = 0;
  const since = (before) => app.script("return taps.slice(arguments[0]);", before);
  person.click = async (key) => {
    const place = await middle(app, key);
    const card = await person.look();
    at.push({ card: Number(card.card), title: card.title, key });
    const before = await app.script("return taps.length;");
    glass.tap(place, GAPS_MS);
    const all = await until(`${1 + GAPS_MS.length} taps`, async () => {
      const come = await since(before);
      return come.length > GAPS_MS.length && come;
    });
    at.at(-1).gapMs = Math.round(all.at(-1) - all[0]);
    widest = Math.max(widest, at.at(-1).gapMs);
  };
  const after = () => at.slice(1).map((tap, index) => ({ ...at[index], to: tap.card }));
  const doubled = () => after().filter(({ card, to, title }) => to !== card + (title === LAST ? 2 : 1));
  return {
    /** Where the next tap would be: the card that the last one led to. */
    last: (card) => at.push({ card: Number(card.card), title: card.title }),
    taps: () => at.length,
    widest: () => widest,
    doubled,
    /** Taps of one answer that were taken, and by their own time stamps were no double tap. */
    wasTooSlow: () => doubled().some(({ gapMs }) => gapMs >= GUARD_MS),
  };
}
