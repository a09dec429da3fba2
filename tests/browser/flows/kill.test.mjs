import assert from "node:assert/strict";
import { test } from "node:test";
import { admit, QUIET, somebody, switchOn, tablet } from "./ward.mjs";

test("killed in the sensing stage and started again: the resume card, then the same card", async (t) => {
  const ward = await tablet(t, { size: [800, 1280], timesFaster: 1 });
  const person = await admit(ward);
  person.heart = { ...QUIET.heart, own: 75 };
  const before = await person.carryOn((card) => /RATE down/.test(card.title) && card.keys.includes("every-beat-marked"));

  await ward.app.kill();
  await switchOn(ward);
  const again = somebody(ward, { heart: person.heart, found: person.dials });
  await ward.app.find('[data-key="yes"], [data-key^="bed-"]');
  const away = await again.look();
  assert.match(away.title, /^Away \d+ s/, away.text);

  const resumed = await again.answered("yes");
  assert.equal(resumed.title, before.title);
  assert.ok(resumed.keys.includes("stop"), "the way back is in sight");
});
