import assert from "node:assert/strict";
import { test } from "node:test";
import { focus, keyboardOnly, typeIn } from "./keys.mjs";
import { untilSaid } from "./said.mjs";
import { QUIET, somebody, tablet } from "./ward.mjs";

const PIN = "40618273";
const LEARNER = "L. E. (invented)";
const ITEMS = 10;

test("sign-off by the keyboard alone: an educator enrols with a PIN and signs an item of a practice run", async (t) => {
  const ward = await tablet(t, { size: [800, 1280], timesFaster: 1 });
  const { app } = ward;
  const person = await keyboardOnly(somebody(ward));
  const inOrder = async (...order) => {
    for (const key of order) await person.tap(key);
  };
  const filled = async (texts, then) => {
    await app.find(`#${Object.keys(texts).at(-1)}`);
    await typeIn(app, texts);
    await person.tap(then);
  };

  await inOrder("welcomed", "practice", "exercise-quiet", "alone", "found");
  await app.find("#capture");
  await app.click("capture-how:exactly");
  await filled({ capture: "1.8" }, "done");
  await filled(QUIET.found, "done");
  await untilSaid(app, /Not passed/);

  await inOrder("exercises", "back", "settings", "light-day");
  await app.find(':root[data-light="day"]');
  await inOrder("teaching", "educators", "enrol");
  await filled({ name: "E. Example", "new-pin": PIN, "new-pin-again": PIN }, "done");
  await untilSaid(app, /Educator: .*E\. Example[^]*not vouched for/);

  await inOrder("back", "back", "to-sign");
  await person.tap(await firstKey(app, "sign-"));
  await filled({ learner: LEARNER }, "next");
  await untilSaid(app, new RegExp(`item 1 of ${ITEMS}`));
  for (const key of ["how:observed", "met:met"]) await app.click(key);
  await filled({ reason: "named each part afterwards" }, "next");
  for (let item = 2; item <= ITEMS; item += 1) {
    await untilSaid(app, new RegExp(`item ${item} of ${ITEMS}`));
    await person.tap("leave");
  }
  await person.tap("sign");
  await filled({ pin: PIN }, "done");
  const entry = await untilSaid(app, /Sign-off: .*L\. E\./);
  assert.match(entry, /Signed by\s+\S*E\. Example/);
  assert.match(entry, /Observed, met/);
  assert.match(entry, /named each part afterwards/);
  await focus(app);
});

async function firstKey(app, start) {
  const selector = `[data-key^="${start}"]`;
  await app.find(selector);
  return app.script("return document.querySelector(arguments[0]).dataset.key;", selector);
}
