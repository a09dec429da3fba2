import assert from "node:assert/strict";
import { test } from "node:test";
import { familyOf, internetSockets, startedWith } from "../processes.mjs";
import { admit, QUIET, tablet } from "./ward.mjs";

// The order is the restore table's: what stands is listed as it must be turned, the first one large.
const STAGES = [
  { stage: "own rhythm", at: (card) => /own rhythm/.test(card.text) && card.keys.includes("own-held"), order: ["RATE"] },
  { stage: "sensing", at: (card) => /mV up/.test(card.title) && card.keys.includes("every-beat-marked"), order: ["mV", "OUTPUT", "RATE"] },
  { stage: "capture", at: (card) => /OUTPUT down/.test(card.title) && / capture/.test(card.text) && card.keys.includes("every-spike"), order: ["OUTPUT", "RATE"] },
];

for (const { stage, at, order } of STAGES) {
  test(`stop in ${stage}: every dial goes back, in the table's order`, async (t) => {
    const ward = await tablet(t, { size: [600, 960] });
    const person = await admit(ward);
    await person.carryOn(at);
    assert.deepEqual(socketsOf(ward.app), [], "the app speaks to nobody");
    const away = Object.keys(person.dials).filter((dial) => person.dials[dial] !== QUIET.found[dial]);

    await person.answered("stop");
    const listed = await dialsListed(ward.app);
    const expected = order.filter((dial) => away.includes(dial.toLowerCase()));
    assert.deepEqual(listed.map(([dial]) => dial), expected);
    for (const [dial, figure] of listed) assert.equal(figure, QUIET.found[dial.toLowerCase()]);

    await person.carryOn((next) => next.fields.includes("output"));
    assert.deepEqual(person.dials, QUIET.found, "the list was enough to turn them back by, and they are read");
    await person.carryOn((next) => next.keys.includes("code") || next.keys.some((key) => key.startsWith("start-")));
  });
}

function dialsListed(app) {
  return app.script(`
    return [...document.querySelectorAll("#card ol > li, #card ul > li")]
      .map((item) => item.innerText.replace(/\\s+/g, " "))
      .map((text) => [/(OUTPUT|RATE|mV)/.exec(text)?.[1], /([0-9]+(?:\\.[0-9]+)?)/.exec(text.replace(/^\\d+ /, ""))?.[1]])
      .filter(([dial]) => dial);`);
}

/** Of the app and its web processes, in mid-check. */
function socketsOf(app) {
  const [pid] = app.pids();
  const driver = startedWith(pid, "WEBKIT_INSPECTOR_SERVER");
  assert.match(driver, /^127\.0\.0\.1:\d+$/);
  const pids = familyOf(pid);
  assert.ok(pids.length >= 2, "a web process at least");
  const port = Number(driver.split(":")[1]);
  assert.notDeepEqual(internetSockets(pids), [], "the driver's own is seen, so that others would be");
  return internetSockets(pids, port);
}
