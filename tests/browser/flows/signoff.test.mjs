import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { readFileSync, readdirSync, statSync } from "node:fs";
import { join } from "node:path";
import { test } from "node:test";
import { handIn, unhurried } from "./desk.mjs";
import { untilSaid } from "./said.mjs";
import { admit, ROOT, tablet } from "./ward.mjs";

const PIN = "40618273";
const WRONG_PIN = "77441100";
const LEARNER = "L. E. (invented)";

test("an educator signs a supervised check after one wrong PIN; the file is looked at on another tablet", async (t) => {
  const ward = await tablet(t, { size: [800, 1280] });
  const person = await admit(ward);
  await person.carryOn((card) => /own rhythm/.test(card.text) && card.keys.includes("own-held"));
  await person.answered("stop");
  await person.carryOn((card) => card.keys.includes("code"));
  const desk = new Desk(ward.app);
  for (const key of ["bed", "beds", "settings", "teaching", "educators", "enrol"]) await desk.tap(key);

  await ward.app.press("#name");
  await ward.app.keys("E. Example");
  await desk.pad("#new-pin", PIN);
  await desk.pad("#new-pin-again", WRONG_PIN);
  await desk.tap("done");
  await desk.says(/two PINs are not the same/);
  assert.equal(await ward.app.script("return document.querySelector('#name').value;"), "E. Example", "the form stays filled");
  await desk.erase("#new-pin-again", WRONG_PIN.length);
  await desk.pad("#new-pin-again", PIN);
  await desk.tap("done");
  await desk.says(/Educator: .*E\. Example[^]*not vouched for/);

  for (const key of ["back", "back", "to-sign"]) await desk.tap(key);
  await desk.tapFirst("sign-");
  await ward.app.press("#learner");
  await ward.app.keys(LEARNER);
  await desk.tap("next");
  for (let item = 0; item < 10; item += 1) {
    await desk.says(new RegExp(`item ${item + 1} of 10`));
    if (item === 3) {
      await desk.tap("leave");
      continue;
    }
    await ward.app.click(item % 2 ? "how:observed" : "how:explained");
    await ward.app.click(item === 6 ? "met:not-met" : "met:met");
    await desk.tap("next");
  }
  await desk.says(/Not this time/);
  await desk.tap("sign");
  await desk.pad("#pin", WRONG_PIN);
  await desk.tap("done");
  await desk.says(/Not this educator.s PIN/);
  await desk.pad("#pin", PIN);
  await desk.tap("done");
  const entry = await desk.says(/Sign-off: .*L\. E\./);
  assert.match(entry, /Nobody vouches for this educator/);
  assert.match(entry, /Observed, not met|Explained, not met/);
  assert.doesNotMatch(entry, /Bay 2/, "no bed goes into a sign-off");

  await desk.tap("save");
  const [, file] = /Saved as .?(\/\S+\.holdfast)/.exec(await desk.says(/Saved as/)) ?? [];
  assert.ok(file, "the path is shown");
  const said = execFileSync(terminal(), ["signoff", "verify", file, ward.folder], { encoding: "utf8" });
  assert.match(said, /Unchanged since it was signed[^]*not vouched for/);

  for (const key of ["back", "back"]) await desk.tap(key);
  await desk.says(/L\. E\. \(invented\)[^]*8 of 10 items met/);
  const saved = readFileSync(file);
  for (const path of filesIn(ward.folder)) {
    const bytes = readFileSync(path);
    for (const pin of [PIN, WRONG_PIN]) assert.equal(bytes.indexOf(pin), -1, `a PIN in ${path}`);
  }
  await elsewhere(t, saved);
});

/** Another tablet: unchanged but unknown there; one byte other and it is refused. */
async function elsewhere(t, saved) {
  const ward = await tablet(t, { size: [1280, 800] });
  const desk = new Desk(ward.app);
  for (const key of ["welcomed", "settings", "teaching", "new-file"]) await desk.tap(key);
  const altered = Buffer.from(saved);
  altered[altered.length >> 1] ^= 1;
  await desk.handIn(altered);
  await desk.says(/Changed after it was signed/);
  await desk.handIn(saved);
  await desk.says(/Unchanged since it was signed/);
  await desk.says(/is not known on this tablet/);
}

function terminal() {
  return join(process.env.CARGO_TARGET_DIR ?? join(ROOT, "target"), "debug/terminal");
}

function filesIn(folder) {
  const paths = readdirSync(folder).map((name) => join(folder, name));
  return paths.flatMap((path) => (statSync(path).isDirectory() ? filesIn(path) : [path]));
}

/** Somebody at a desk, who taps no faster than a person. */
class Desk {
  constructor(app) {
    this.app = app;
  }

  says(pattern) {
    return untilSaid(this.app, pattern);
  }

  tap(key) {
    return unhurried(this.app, key);
  }

  async tapFirst(start) {
    await this.app.find(`[data-key^="${start}"]`);
    const key = await this.app.script("return document.querySelector(arguments[0]).dataset.key;", `[data-key^="${start}"]`);
    await this.tap(key);
  }

  async pad(selector, digits) {
    await this.app.press(selector);
    for (const digit of digits) await this.app.click(`pad-${digit}`);
  }

  async erase(selector, count) {
    await this.app.press(selector);
    for (let at = 0; at < count; at += 1) await this.app.click("pad-Backspace");
  }

  handIn(bytes) {
    return handIn(this.app, "#signed-file", bytes);
  }
}
