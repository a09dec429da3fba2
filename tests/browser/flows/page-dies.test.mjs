import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { availableParallelism, loadavg } from "node:os";
import { test } from "node:test";
import { setTimeout as sleep } from "node:timers/promises";
import { byKey } from "../driver.mjs";
import { until, virtualDisplay } from "../processes.mjs";
import { tablet } from "./ward.mjs";

const KILLS = 20;
const BACK_WITHIN_MS = 3_000;
const DOUBLE_TAP_MS = 300;

test(`the page's process is killed ${KILLS} times: each time it is back and takes a tap`, async (t) => {
  const ward = await tablet(t, { size: [600, 960], timesFaster: 1 });
  const screen = await learnScreen(ward.app);
  const times = [];
  for (let kill = 0; kill < KILLS; kill += 1) {
    const [before] = await until("a page", () => ward.app.webPids().length > 0 && ward.app.webPids());
    process.kill(before, "SIGKILL");
    const since = performance.now();
    await until("another page", () => ward.app.webPids().some((pid) => pid !== before), { everyMs: 5 });
    await until("a tap that is taken", () => screen.tapTurnsThePage(), { everyMs: 20 });
    times.push(Math.round(performance.now() - since));
  }
  t.diagnostic(`back after ${times.sort((a, b) => a - b).join(", ")} ms`);
  if (loadavg()[0] > 2 * availableParallelism()) return t.skip("this machine is too busy to judge seconds");
  assert.ok(times.at(-1) <= BACK_WITHIN_MS, `the slowest came back after ${times.at(-1)} ms`);
});

/** The driver's session dies with the page: from then on the screen itself is looked at and touched. */
async function learnScreen(app) {
  const env = { ...process.env, DISPLAY: await virtualDisplay() };
  const run = (program, ...args) => execFileSync(program, args, { env, maxBuffer: 64 << 20 });
  // Below the head, where the time of day stands.
  const picture = () => run("import", "-window", "root", "-crop", "600x820+0+140", "-depth", "8", "rgb:-");

  const tap = ({ x, y }) => run("xdotool", "mousemove", x, y, "click", "1");

  const ways = [await wayFrom(app, "welcomed", "settings"), await wayFrom(app, "settings", "back")];
  // Both pages as they look after such a tap, with the pointer where it was.
  const pages = [];
  for (const way of [ways[1], ways[0], ways[1]]) {
    tap(way);
    pages.push(await settled(picture));
  }
  let at = { shows: pages[2], way: ways[0], next: { shows: pages[1], way: ways[1] } };
  at.next.next = at;
  let tapped = 0;
  return {
    /** Taps where the page before stands, no faster than a second tap counts. */
    tapTurnsThePage() {
      const now = picture();
      if (alike(now, at.shows) && performance.now() - tapped > DOUBLE_TAP_MS) {
        tap(at.way);
        tapped = performance.now();
      }
      if (!alike(now, at.next.shows)) return false;
      at = at.next;
      return true;
    },
  };
}

/** The same but for edges: a page loaded afresh smooths some of them otherwise. */
function alike(one, other) {
  let different = 0;
  for (let at = 0; at < one.length; at += 3) if (Math.abs(one[at] - other[at]) > 32) different += 1;
  return different < one.length / 3 / 200;
}

/** Goes on by one button; where the next one lies. */
async function wayFrom(app, key, next) {
  await turn(app, key);
  await sleep(400);
  return middle(app, next);
}

async function turn(app, key) {
  await app.find(byKey(key));
  await sleep(400);
  await app.click(key);
  await until("the other page", async () => !(await app.has(byKey(key))));
}

/** The picture once two in a row are the same. */
async function settled(picture) {
  await sleep(300);
  let last = picture();
  return until("the screen to stand still", () => {
    const now = picture();
    const still = alike(now, last);
    last = now;
    return still && now;
  });
}

async function middle(app, key) {
  await app.find(byKey(key));
  return app.script(
    `const box = document.querySelector(arguments[0]).getBoundingClientRect();
     return { x: Math.round(box.x + box.width / 2), y: Math.round(box.y + box.height / 2) };`,
    byKey(key),
  );
}
