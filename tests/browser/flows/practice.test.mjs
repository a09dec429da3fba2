import assert from "node:assert/strict";
import { test } from "node:test";
import { KEYS, until } from "../driver.mjs";
import { typed } from "./desk.mjs";
import { somebody, switchOn, tablet } from "./ward.mjs";

test("practice without cards: the strip runs, dials turn, a death pauses it, what was done is judged and looked at again", async (t) => {
  const ward = await tablet(t, { size: [800, 1280], timesFaster: 1 });
  const person = await newcomer(ward);
  for (const key of ["practice", "exercise-quiet", "alone"]) await person.tap(key);
  assert.match((await person.look()).text, /Practice · simulated patient/);
  await until("the strip to run", async () => (await drawn(ward.app)) > 100);
  await until("a pulse a minute", async () => /pulse\s+\d+/.test((await person.look()).text));

  const took = await ward.app.scriptAsync(TURN, "output-down");
  t.diagnostic(`a dial turn showed after ${took.ms.toFixed(0)} ms: ${took.before} to ${took.after}`);
  assert.equal((Number(took.before) - Number(took.after)).toFixed(1), "0.1");

  await ward.app.click("strip-freeze");
  await ward.app.find('[data-key="strip-earlier"]');
  const frozen = await picture(ward.app);
  await ward.app.script("document.querySelector('[data-key=\"strip-earlier\"]').focus()");
  await ward.app.keys([KEYS.ArrowLeft]);
  await until("an earlier second", async () => (await picture(ward.app)) !== frozen);
  await ward.app.click("strip-run");

  await ward.app.kill();
  await switchOn(ward);
  const again = somebody(ward);
  await ward.app.find('[data-key="go-on"]');
  assert.match((await again.look()).title, /started again/);
  await again.tap("go-on");
  await ward.app.find('[data-key="found"]');
  assert.equal(await figure(ward.app), took.after, "the dial stands where it was turned to");
  await until("the strip to run on", async () => (await drawn(ward.app)) > 100);

  await again.tap("found");
  await typed(ward.app, { capture: "1.2" });
  await ward.app.click("capture-how:exactly");
  await again.tap("done");
  await typed(ward.app, { output: "6.0", rate: "80", mv: "2.0" });
  await again.tap("done");
  await ward.app.find('[data-key="acts"]');
  assert.match((await again.look()).text, /Not passed/);
  await again.tap("acts");
  await again.tap("look-0");
  await until("the strip of that moment", async () => (await drawn(ward.app)) > 100);
});

test("practice with the cards: the check's own first card, framed, and no patient's check beside it", async (t) => {
  const ward = await tablet(t, { size: [1280, 800], timesFaster: 1 });
  const person = await newcomer(ward);
  for (const key of ["practice", "exercise-quiet", "guided"]) await person.tap(key);
  await ward.app.find("#name");
  await ward.app.press("#name");
  await ward.app.keys("Dr Example");
  await person.tap("yes");
  await person.tap("all-true");
  assert.ok(await ward.app.has(".card.practice .glass"), "the strip stands beside the card");
  assert.match((await person.look()).text, /Practice/);
  await person.tap("stand-still");
  await until("the pause", async () => /paused/.test((await person.look()).title));
  await person.tap("break-off");
  await until("the end of it", async () => /Broken off/.test((await person.look()).text));
});

async function newcomer(ward) {
  const person = somebody(ward);
  await person.tap("welcomed");
  return person;
}

const figure = (app) => app.script("return document.querySelector('.reading b').textContent");
const picture = (app) => app.script("return document.querySelector('.glass .trace').toDataURL()");

/** Columns of the strip on which something is drawn. */
function drawn(app) {
  return app.script(`
    const trace = document.querySelector(".glass .trace");
    if (!trace || trace.width === 0) return 0;
    const ink = trace.getContext("2d").getImageData(0, 0, trace.width, trace.height).data;
    let columns = 0;
    for (let x = 0; x < trace.width; x += 1) {
      for (let y = 0; y < trace.height; y += 2) if (ink[4 * (y * trace.width + x) + 3] > 100) { columns += 1; break; }
    }
    return columns;`);
}

/** One press; how long until the dial shows another figure. */
const TURN = `const [key, done] = arguments;
  const reading = document.querySelector(".reading b");
  const before = reading.textContent;
  const from = performance.now();
  const seen = new MutationObserver(() => { seen.disconnect(); done({ ms: performance.now() - from, before, after: reading.textContent }); });
  seen.observe(reading, { characterData: true, childList: true, subtree: true });
  document.querySelector('[data-key="' + key + '"]').click();`;
