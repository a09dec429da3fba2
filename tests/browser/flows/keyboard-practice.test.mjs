import assert from "node:assert/strict";
import { test } from "node:test";
import { KEYS, until } from "../driver.mjs";
import { assertSeen, focus, keyboardOnly, keys } from "./keys.mjs";
import { untilSaid } from "./said.mjs";
import { QUIET, somebody, tablet } from "./ward.mjs";

/** The simulated patient of the quiet exercise. */
const PRACTISED = { heart: { own: 72, captures: 1.8, signal: 8.0 }, found: QUIET.found };

test("practice by the keyboard alone: cards answered, the strip looked back over, a dial turned, Stop, the judgement", async (t) => {
  const ward = await tablet(t, { size: [800, 1280], timesFaster: 1 });
  const { app } = ward;
  const person = await keyboardOnly(somebody(ward, PRACTISED));
  try {
    await practise(app, person);
  } catch (error) {
    // A page that drew nothing for two seconds has let the patient stand still, as it should.
    if (!(await person.look()).keys.includes("go-on")) throw error;
    t.skip("this machine was too busy: the patient stood still");
  }
});

async function practise(app, person) {
  for (const key of ["welcomed", "practice", "exercise-quiet", "guided"]) await person.tap(key);
  const asked = await person.carryOn((card) => /RATE down/.test(card.title), { mostCards: 12 });
  await lookBack(app);

  await person.tap("take-rate");
  await turnTo(person, "rate", /\d+/.exec(asked.stands)[0]);
  await person.answered("stands");
  const restore = await person.answered("stop");
  assert.match(restore.text, /RATE\s+80/);
  await turnTo(person, "rate", QUIET.found.rate);

  await person.carryOn((card) => card.keys.includes("acts"), { mostCards: 6 });
  const judged = await untilSaid(app, /Not passed/);
  assert.match(judged, /Missed: Capture threshold found/);
  assert.doesNotMatch(judged, /Missed: (RATE left|Dials read)/, "the dial was turned back, and read");
  for (const key of ["acts", "look-0"]) await person.tap(key);
  await app.find('[data-key="strip-earlier"]');
  await focus(app);
}

/** The strip is stopped, looked back over by arrow, and let go. */
async function lookBack(app) {
  await app.click("strip-freeze");
  await app.find('[data-key="strip-run"]');
  assertSeen(await focus(app));
  const stopped = await strip(app);
  await keys(app, [KEYS.ArrowLeft]);
  await until("an earlier second", async () => (await strip(app)) !== stopped);
  await app.click("strip-run");
  await app.find('[data-key="strip-freeze"]');
}

/** Turns the dial under the hand, key by key, until it shows this; a key that turned nothing is pressed again. */
async function turnTo(person, dial, figure) {
  for (let turns = 0; turns < 20; turns += 1) {
    const now = await reading(person.app);
    if (now === figure) return;
    await person.tap(`${dial}-${Number(now) > Number(figure) ? "down" : "up"}`);
    await until("the dial to turn", async () => (await reading(person.app)) !== now, { timeoutMs: 8_000 }).catch(() => {});
  }
  throw new Error(`${dial} does not come to ${figure}`);
}

const reading = (app) => app.script("return document.querySelector('.reading b').textContent;");
const strip = (app) => app.script("return document.querySelector('.glass .trace').toDataURL();");
