import assert from "node:assert/strict";
import { test } from "node:test";
import { focus, keyboardOnly, typeIn } from "./keys.mjs";
import { untilSaid } from "./said.mjs";
import { admittedToBed, QUIET, somebody, tablet } from "./ward.mjs";

test("a transport by the keyboard alone: what goes along, the dials, a change of hands on the way, arrival", async (t) => {
  const ward = await tablet(t, { size: [1280, 800] });
  const { app } = ward;
  const person = await keyboardOnly(somebody(ward));
  const answer = (key) => person.answered(key);
  const inOrder = async (...keys) => {
    let card;
    for (const key of keys) card = await answer(key);
    return card;
  };
  const filled = async (texts) => {
    await typeIn(app, texts);
    return answer("done");
  };
  await admittedToBed(person, "ventricle");

  await inOrder("more", "move");
  await app.click("target:imaging");
  const pads = await filled({ destination: "CT, level 1" });
  assert.match(pads.title, /pads/i, "pads come first");
  await inOrder("yes", "all-true");
  const again = await filled(QUIET.found);
  assert.match(again.text, /Nothing to compare with/);
  const margin = await filled(QUIET.found);
  assert.match(margin.text, /threshold is not known/);
  await answer("all-true");
  await filled({ from: "AB", to: "CD" });
  await inOrder("yes", "changed", "into-vehicle", "yes");
  await untilSaid(app, /Capture and pulse last seen \d\d:\d\d/);

  await inOrder("arrived", "yes");
  const arrived = await filled(QUIET.found);
  assert.match(arrived.text, /threshold is not known/);
  await answer("all-true");
  await filled({ from: "CD", to: "EF" });
  const bed = await answer("yes");
  assert.ok(bed.keys.includes("start-1"), bed.text);
  await untilSaid(app, /due now/);
  await focus(app);
});
