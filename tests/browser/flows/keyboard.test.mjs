import assert from "node:assert/strict";
import { test } from "node:test";
import { byKey, KEYS } from "../driver.mjs";
import { admit, QUIET, tablet } from "./ward.mjs";

test("a whole check by the keyboard alone", async (t) => {
  const ward = await tablet(t, { size: [1280, 800] });
  withoutPointer(ward.app);
  const person = await admit(ward, { ...QUIET, heart: { ...QUIET.heart, own: 75 } });
  person.fill = (fields) => type(person, fields);

  const result = await person.carryOn((card) => card.keys.includes("code"));
  assert.match(result.text, /Capture threshold\s+1\.2 mA/);
  assert.deepEqual(person.dials, { output: "3.6", rate: "80", mv: "2.0" });
});

/** Takes the pointer away: what was pressed is now reached by Tab and taken with Enter. */
function withoutPointer(app) {
  app.click = (key) => app.press(byKey(key));
  app.press = async (selector) => {
    await app.find(selector);
    await tabTo(app, selector);
    if (!(await isText(app))) await app.keys(KEYS.Enter);
  };
}

async function tabTo(app, selector, mostStops = 60) {
  for (let stop = 0; stop < mostStops; stop += 1) {
    if (await app.script("return document.activeElement.matches(arguments[0]);", selector)) return;
    await app.keys(KEYS.Tab);
  }
  throw new Error(`the keyboard does not reach ${selector} in ${mostStops} stops`);
}

function isText(app) {
  return app.script('return document.activeElement.matches("input");');
}

/** Digits and words are typed into the fields themselves. */
async function type({ app, dials, heart, name }, fields) {
  const said = { ...dials, slowest: `${heart.own}`, fastest: `${heart.own}` };
  for (const id of fields) {
    await app.press(`#${id}`);
    await app.keys(said[id] ?? name);
  }
}
