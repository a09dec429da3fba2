import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { availableParallelism, loadavg } from "node:os";
import { test } from "node:test";
import { setTimeout as sleep } from "node:timers/promises";
import { byKey } from "../driver.mjs";
import { until } from "../processes.mjs";
import { boxOf, middle, touched } from "./glass.mjs";
import { admit, switchOn, tablet, TERMINAL } from "./ward.mjs";

const ON_SETTINGS = 14;
const ON_A_DIAL = 6;
const BACK_WITHIN_MS = 3_000;
/** A mouse's press waits in WebKit for up to 6 s after its page was started anew; why is not known. */
const TAPPED_WITHIN_MS = 10_000;

test(`the page's process is killed ${ON_SETTINGS} times: each time it is back and takes a tap`, async (t) => {
  const ward = await tablet(t, { size: [600, 960] });
  const screen = await lightSwitch(ward.app);
  const taps = [];
  for (let kill = 0; kill < ON_SETTINGS; kill += 1) {
    const since = await killPage(ward.app, kill);
    await until("the card to be on the glass again", () => returns(ward.app).length > kill, { everyMs: 50 });
    await until("a tap that is taken", () => screen.turns(), { everyMs: 50 });
    taps.push(Math.round(performance.now() - since));
  }
  assert.equal(deaths(ward.app), ON_SETTINGS, "the page died by these kills alone");
  const back = returnsOf(t, ward.app);
  t.diagnostic(`tapped after ${taps.sort((a, b) => a - b).join(", ")} ms`);
  if (isTooBusy()) return t.skip("this machine is too busy to judge seconds");
  assert.ok(back.at(-1) <= BACK_WITHIN_MS, `the slowest came back after ${back.at(-1)} ms`);
  assert.ok(taps.at(-1) <= TAPPED_WITHIN_MS, `the slowest tap was taken after ${taps.at(-1)} ms`);
});

test(`killed ${ON_A_DIAL} times on an open dial card: the same card each time, and the record holds`, async (t) => {
  const ward = await tablet(t, { size: [600, 960] });
  const person = await admit(ward);
  const card = await person.carryOn(({ stands, title }) => stands && /RATE/.test(title));
  const glass = await touched();
  const [shown, stands] = [await boxOf(ward.app, "#card .show"), await middle(ward.app, "stands")];
  const asked = await until("a card that stands still", () => glass.still(shown));
  for (let kill = 0; kill < ON_A_DIAL; kill += 1) {
    await killPage(ward.app, kill);
    await until("the card to be on the glass again", () => returns(ward.app).length > kill);
    await until(`"${card.title}" as it was`, () => alike(glass.picture(shown), asked), { everyMs: 100 });
  }
  assert.equal(deaths(ward.app), ON_A_DIAL, "the page died by these kills alone");
  assert.match(verified(ward), / holds: \d+ entries, 0 erased/);
  await until("a tap that is taken", () => {
    glass.tap(stands);
    return !alike(glass.picture(shown), asked);
  });
  assert.match(verified(ward), / holds: \d+ entries, 0 erased/);
  const back = returnsOf(t, ward.app);
  if (isTooBusy()) return t.skip("this machine is too busy to judge seconds");
  assert.ok(back.at(-1) <= BACK_WITHIN_MS, `the slowest came back after ${back.at(-1)} ms`);
});

test("killed in practice: the simulated patient stands still, and the record says that the strip did", async (t) => {
  const ward = await tablet(t, { size: [800, 1280], timesFaster: 1 });
  for (const key of ["welcomed", "practice", "exercise-quiet", "alone"]) await tapOnce(ward.app, key);
  await ward.app.find(byKey("found"));
  await sleep(3_000);
  await killPage(ward.app, 0);
  await until("the card to be on the glass again", () => returns(ward.app).length === 1);
  // The driver knows no page any more; the next start shows why the patient was let stand still before it.
  await ward.app.kill();
  await switchOn(ward);
  await ward.app.find(byKey("go-on"));
  assert.match(await ward.app.script("return document.querySelector('#card').textContent"), /The strip stood still/);
});

/** Far more asks for its processors than four flows do. */
function isTooBusy() {
  return loadavg()[0] > 4 * availableParallelism();
}

/** The quickest first. */
function returnsOf(t, app) {
  const back = returns(app).sort((a, b) => a - b);
  t.diagnostic(`back after ${back.join(", ")} ms`);
  return back;
}

/** But for the smoothing of an edge, which another process may do otherwise; another figure is thousands of points. */
function alike(one, other) {
  const apart = one.reduce((count, level, at) => count + (Math.abs(level - other[at]) > 48), 0);
  return one.length === other.length && apart <= one.length / 1_000;
}

/** What the terminal says of the record, beside the running app. */
function verified({ folder }) {
  return execFileSync(TERMINAL, ["verify", folder], { encoding: "utf8" });
}

/** WebKit keeps a spare process, mostly the younger one: where no page died, it was the spare. */
async function killPage(app, kill) {
  for (let tries = 0; tries < 3; tries += 1) {
    process.kill(app.webPids()[0], "SIGKILL");
    const since = performance.now();
    const died = () => deaths(app) > kill;
    if (await until("the death to be noticed", died, { everyMs: 5, timeoutMs: 4_000 }).then(() => true, () => false)) return since;
  }
  return assert.fail("no page died by three kills");
}

function deaths(app) {
  return app.said().filter((line) => line.includes("the page ended")).length;
}

/** Milliseconds from each death to the card on the glass again, as the app says. */
function returns(app) {
  return app.said().flatMap((line) => /the page is back after (\d+) ms/.exec(line)?.[1] ?? []).map(Number);
}

test("a page that hangs is ended and loaded again", async (t) => {
  const ward = await tablet(t, { size: [600, 960] });
  const screen = await lightSwitch(ward.app);
  await ward.app.script("setTimeout(() => { for (;;); }, 500);");
  await until("the page to be ended", () => deaths(ward.app) === 1);
  await until("a tap that is taken", () => screen.turns());
});

/**
 * The driver's session dies with the page: from then on the screen itself is looked at and touched.
 * Day and night are told apart by one point, and to ask twice for the same does no harm.
 */
async function lightSwitch(app) {
  const glass = await touched();
  const isLight = () => glass.picture({ x: 4, y: 480, width: 1, height: 1 })[0] > 128;

  for (const key of ["welcomed", "settings"]) await tapOnce(app, key);
  const day = await middle(app, "light-day");
  const night = await middle(app, "light-night");
  let wanted = !isLight();
  return {
    /** Taps; true once the screen has turned, and then means to turn it back. */
    turns() {
      glass.tap(wanted ? day : night);
      if (isLight() !== wanted) return false;
      wanted = !wanted;
      return true;
    },
  };
}

async function tapOnce(app, key) {
  await app.find(byKey(key));
  await sleep(400);
  await app.click(key);
}
