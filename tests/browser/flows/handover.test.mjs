import assert from "node:assert/strict";
import { readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import { test } from "node:test";
import { until } from "../driver.mjs";
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
  const said = () => app.script("return document.getElementById('card').innerText;");
  const untilSaid = (pattern) => until(`${pattern}`, async () => pattern.test(await said()) && said());
  await app.click("welcomed");
  await unhurried(app, "load");

  await typed(app, "HOLDFAST 1 en: nothing that a tablet wrote");
  await unhurried(app, "load");
  await untilSaid(/Letters are missing/);
  await handIn(app, Buffer.from("no picture"));
  await untilSaid(/no picture this tablet can read/);

  for (const picture of [lines, copy]) {
    await handIn(app, picture.bytes);
    const arrived = await untilSaid(/Unchanged since it was written/);
    assert.match(arrived, /OUTPUT 3\.6 mA, RATE 80, mV 2\.0/);
    assert.match(arrived, /This code has none/);
    if (picture === lines) await unhurried(app, "aside");
  }

  await unhurried(app, "take");
  await app.press("#label");
  await app.keys("Bay 9");
  await app.click("generator:example-fine-current");
  await unhurried(app, "take-in");
  await app.find("#output");
  assert.doesNotMatch(await said(), /3\.6/, "what the code says is not shown before the dials are read");
  for (const [id, position] of [["output", "3.0"], ["rate", "80"], ["mv", "2.0"]]) {
    await app.press(`#${id}`);
    for (const digit of position) await app.click(`pad-${digit}`);
  }
  await unhurried(app, "done");
  const compared = await untilSaid(/DIFFERS: the code says 3\.6 mA/);
  assert.match(compared, /2\.5 × threshold/);
  await unhurried(app, "bed");
  assert.match(await untilSaid(/due now/), /handed over from another tablet/);
});

async function photographed({ app, folder }, name) {
  const file = join(folder, name);
  await app.screenshot(file);
  return { bytes: readFileSync(file), across: await across(app) };
}

/** Modules on each side, with the quiet zone. */
function across(app) {
  return app.script("return document.querySelector('#card .qr svg')?.getAttribute('viewBox') ?? null;");
}

/** Past the time in which a tap counts as the second half of a double tap. */
async function unhurried(app, key) {
  await app.find(`[data-key="${key}"]`);
  await new Promise((done) => setTimeout(done, 150));
  await app.click(key);
}

/** A scanner types wherever the focus is. */
async function typed(app, text) {
  await app.find("#code");
  await app.keys(text);
}

/** What the tablet's own file dialog does: it puts the chosen file into the field. */
async function handIn(app, bytes) {
  await app.find("#handover-picture");
  await app.script(
    `const [selector, base64] = arguments;
     const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
     const chosen = new DataTransfer();
     chosen.items.add(new File([bytes], "code.png", { type: "image/png" }));
     const field = document.querySelector(selector);
     field.files = chosen.files;
     field.dispatchEvent(new Event("change", { bubbles: true }));`,
    "#handover-picture",
    bytes.toString("base64"),
  );
}
