import assert from "node:assert/strict";
import { statSync } from "node:fs";
import { join } from "node:path";
import { test } from "node:test";
import { until } from "../driver.mjs";
import { unhurried } from "./desk.mjs";
import { across, handInPicture, photographed, readDials, typed } from "./handing.mjs";
import { saidNow, untilSaid as saidOn, untilUnsaid } from "./said.mjs";
import { admit, tablet } from "./ward.mjs";

test("from one tablet's screen to another: the picture of a code, loaded, taken in, one dial found wrong", async (t) => {
  const sender = await tablet(t, { size: [800, 1280] });
  const person = await admit(sender);
  await person.carryOn((card) => card.keys.includes("code"));
  await sender.app.click("code");
  await sender.app.find("#card .qr svg");
  const lines = await photographed(sender, "lines.png");
  await unhurried(sender.app, "copy");
  await until("the other face", async () => (await across(sender.app)) !== lines.across);
  const copy = await photographed(sender, "copy.png");
  assert.equal(statSync(join(sender.folder, "tablet.key")).mode & 0o777, 0o600, "the key is for nobody else's eyes");
  await sender.app.close();

  const receiver = await tablet(t, { size: [800, 1280] });
  const { app } = receiver;
  const untilSaid = (pattern) => saidOn(app, pattern);
  await app.click("welcomed");
  await unhurried(app, "load");

  await typed(app, "HOLDFAST 1 en: nothing that a tablet wrote");
  await unhurried(app, "load");
  await untilSaid(/Letters are missing/);
  await handInPicture(app, Buffer.from("no picture"));
  await untilSaid(/no picture this tablet can read/);

  const loads = async (picture) => {
    await handInPicture(app, picture.bytes);
    const arrived = await untilSaid(/Unchanged since it was written/);
    assert.match(arrived, /OUTPUT 3\.6 mA, RATE 80, mV 2\.0/);
    assert.match(arrived, /This code has none/);
  };
  await loads(lines);
  await unhurried(app, "aside");
  await untilUnsaid(app, /Unchanged since it was written/);
  await loads(copy);

  await unhurried(app, "take");
  await app.press("#label");
  await app.keys("Bay 9");
  await app.click("generator:example-fine-current");
  await unhurried(app, "take-in");
  await app.find("#output");
  assert.doesNotMatch(await saidNow(app), /3\.6/, "what the code says is not shown before the dials are read");
  await readDials(app, { output: "3.0", rate: "80", mv: "2.0" });
  await unhurried(app, "done");
  const compared = await untilSaid(/DIFFERS: the code says 3\.6 mA/);
  assert.match(compared, /2\.5 × threshold/);
  await unhurried(app, "bed");
  assert.match(await untilSaid(/due now/), /handed over from another tablet/);
});
