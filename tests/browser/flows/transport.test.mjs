import assert from "node:assert/strict";
import { test } from "node:test";
import { until } from "../driver.mjs";
import { unhurried } from "./desk.mjs";
import { handInPicture, photographed, readDials } from "./handing.mjs";
import { untilSaid } from "./said.mjs";
import { QUIET, admit, somebody, switchOn, tablet } from "./ward.mjs";

const LEFT = { output: "3.6", rate: "80", mv: "2.0" };
const FOUND = { ...LEFT, output: "3.0" };

test("from one tablet to another, on the way, onto another box: one dial wrong, a tablet killed, a check due now", async (t) => {
  const sender = await tablet(t, { size: [800, 1280] });
  const nurse = await admit(sender);
  await nurse.carryOn((card) => card.keys.includes("code"));
  assert.deepEqual(nurse.dials, LEFT);
  await sender.app.click("code");
  const code = await photographed(sender, "lines.png");
  await sender.app.close();

  const receiver = await tablet(t, { size: [800, 1280] });
  let { app } = receiver;
  let person = team(receiver);
  await loadedAndCompared(app, code);

  const answer = (key) => person.answered(key);
  const write = async (field, text) => {
    await app.press(`#${field}`);
    await app.keys(text);
  };
  const read = async (dials) => {
    await readDials(app, dials);
    return answer("done");
  };
  const inOrder = async (...keys) => {
    let card;
    for (const key of keys) card = await answer(key);
    return card;
  };
  const signed = async (from, to) => {
    await write("from", from);
    await write("to", to);
    return answer("done");
  };

  await inOrder("more", "move");
  await app.click("target:mri");
  const stopped = await answer("done");
  assert.match(stopped.title, /no MRI/);
  await answer("back");
  await app.click("target:imaging");
  await write("destination", "CT, level 1");
  const pads = await answer("done");
  assert.match(pads.title, /pads/i, "pads come first");
  const margin = await inOrder("yes", "all-true");
  assert.match(margin.text, /differ from the code/i, "compared just now: not asked for twice");
  assert.match(margin.text, /OUTPUT: read 3\.0 mA, expected 3\.6 mA/);
  assert.match(margin.text, /2\.5 × threshold 1\.2/);
  await answer("all-true");
  await signed("AB", "CD");
  await inOrder("yes", "changed", "into-vehicle");
  await answer("yes");
  await untilSaid(app, /Capture and pulse last seen \d\d:\d\d/);

  await app.kill();
  app = await switchOn(receiver);
  person = team(receiver);
  await untilSaid(app, /Look at the patient/);
  await person.tap("yes");
  const back = await untilSaid(app, /On the way to|unchanged, capture and pulse/i);
  if (/unchanged/i.test(back)) await person.tap("yes");
  await untilSaid(app, /On the way to/);

  // A card that came meanwhile takes no tap of the one before: whoever still sees its button taps again.
  await until("the list of beds", async () => {
    const now = await person.look();
    if (now.keys.includes("bed-1")) return now;
    if (now.keys.includes("beds")) await answer("beds");
  });
  await untilSaid(app, /on the way to .*CT, level 1/);
  const bed = await answer("bed-1");
  assert.ok(!bed.keys.includes("start-1"), "no check begins on the way");

  await inOrder("more", "plug-1", "swap", "swap-box", "paced", "no");
  await write("name", "Dr Example");
  await answer("yes");
  const doubted = await read({ ...FOUND, output: "0.3" });
  assert.match(doubted.text, /Last set 3\.0; you typed 0\.3/, "far from what was read on leaving");
  await read(FOUND);
  await app.click("generator:example-volts");
  await inOrder("picked", "all-true", "yes", "yes");
  const set = async (pattern) => {
    await untilSaid(app, pattern);
    await person.tap("stands");
  };
  await set(/New box: set RATE to/);
  await untilSaid(app, /New box: set OUTPUT to/);
  const output = await person.look();
  assert.match(output.text, /mA and volts are not carried over/);
  assert.match(output.stands, /14\.0/, "the highest until the threshold is new");
  await set(/New box: set OUTPUT to/);
  await set(/New box: set mV to/);
  await untilSaid(app, /Read the new box/);
  const standby = await read({ output: "14.0", rate: "80", mv: "2.0" });
  assert.match(standby.title, /standby pacing/, "before anything is unplugged");
  const move = await inOrder("yes", "all-true");
  assert.ok(["no-beats", "wrong", "stop"].every((key) => move.keys.includes(key)), "the way back is in sight");
  await inOrder("all-true", "every-spike", "all-true");
  const after = await read({ output: "14.0", rate: "80", mv: "2.0" });
  assert.ok(after.keys.includes("transport"), "the journey goes on");

  await inOrder("transport", "arrived", "yes");
  const unknown = await read({ output: "14.0", rate: "80", mv: "2.0" });
  assert.match(unknown.text, /threshold is not known/, "mA says nothing about this box");
  await answer("all-true");
  await signed("CD", "EF");
  await answer("yes");
  await app.find('[data-key="start-1"]');
  assert.match(await untilSaid(app, /due now/), /handed over from another tablet/, "the oldest reason stands");
});

/** Somebody who takes the patient on; knows nothing yet. */
function team(ward) {
  return somebody(ward, { heart: QUIET.heart, found: FOUND });
}

async function loadedAndCompared(app, code) {
  await app.click("welcomed");
  await unhurried(app, "load");
  await handInPicture(app, code.bytes);
  await untilSaid(app, /Unchanged since it was written/);
  await unhurried(app, "take");
  await app.press("#label");
  await app.keys("Bay 9");
  await app.click("generator:example-fine-current");
  await unhurried(app, "take-in");
  await app.find("#output");
  await readDials(app, FOUND);
  await unhurried(app, "done");
  await untilSaid(app, /DIFFERS: the code says 3\.6 mA/);
  await unhurried(app, "bed");
}
