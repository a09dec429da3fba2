import assert from "node:assert/strict";
import { test } from "node:test";
import { setTimeout as sleep } from "node:timers/promises";
import { byKey, until } from "../driver.mjs";
import { typed } from "./desk.mjs";
import { somebody, tablet } from "./ward.mjs";

/** The patient lives by the tablet's clock, and the strip with it: a watch takes half as long. */
const TIMES_FASTER = 2;
/** Presses further apart are no longer one turn to the judge; in the patient's seconds. */
const ONE_TURN_S = 2.4;
/** Looks at the glass that take longer than this may miss a cross, or see it at the wrong dial; in seconds. */
const LONG_LOOK_S = 0.4;
/** What was on its way to the glass when a dial was turned has come by then. */
const SETTLED_S = 1.4;

test("practice without cards, by the keys of the dials alone: signal and threshold are found on the strip, and the run is passed", async (t) => {
  const ward = await tablet(t, { size: [800, 1280], timesFaster: TIMES_FASTER });
  const learner = new Learner(ward);
  const begun = performance.now();
  try {
    const { signal, threshold, stays } = await practise(learner);
    t.diagnostic(`found ${signal} mV and ${threshold} mA, left at ${stays.output} mA, in ${((performance.now() - begun) / 1000).toFixed(0)} s; ${learner.pace()}`);
  } catch (error) {
    const stoodStill = (await learner.person.look()).keys.includes("go-on");
    if (!stoodStill && learner.apartS < ONE_TURN_S && learner.lookS < LONG_LOOK_S) throw error;
    t.skip(`this machine was too busy: ${learner.pace()}${stoodStill ? ", the patient stood still" : ""}`);
  }
});

/** A check as the educators teach it; every figure comes from the glass. */
async function practise(learner) {
  const { person, app } = learner;
  for (const key of ["welcomed", "practice", "exercise-quiet", "alone"]) await person.tap(key);
  await until("a pulse a minute", async () => (await learner.pulse()) === "80");

  await learner.turnTo("rate", 70);
  await learner.wait(11);
  await learner.turnTo("rate", 60);
  await learner.wait(34);
  assert.equal(await learner.pulse(), "72", "own beats alone");

  const signal = await findSignal(learner);
  await learner.turnTo("output", 6);
  await learner.turnTo("rate", 80);
  await learner.wait(5);
  const threshold = await findThreshold(learner);

  await learner.turn("output", "up", (to) => to <= 3 * threshold + 1e-9);
  const stays = { output: await learner.figure(), rate: "80", mv: "2.0" };
  await learner.wait(18);

  await person.tap("found");
  await typed(app, { capture: threshold.toFixed(1), sensing: signal.toFixed(1) });
  for (const how of ["capture-how:exactly", "sensing-how:exactly"]) await app.click(how);
  await person.tap("done");
  await typed(app, stays);
  await person.tap("done");
  await app.find(byKey("acts"));
  const judged = (await person.look()).text;
  assert.match(judged, /Passed/);
  assert.doesNotMatch(judged, /Not passed|Missed:|Unsafe:|Late:/);
  return { signal, threshold, stays };
}

/** OUTPUT at its lowest, where a spike makes no beat: a beat that is not marked shows by the cross of the spike behind it. */
async function findSignal(learner) {
  await learner.turnTo("output", 0);
  do {
    await learner.oneKey("mv", "far-up");
  } while (!(await learner.crossWithin(3.6)));
  do {
    await learner.oneKey("mv", "down");
    await learner.wait(SETTLED_S);
  } while (await learner.crossWithin(3.6));
  const signal = Number(await learner.figure());
  await learner.turnTo("mv", 2);
  return signal;
}

/** Down by no more than a fifth at a time until a spike makes no beat, then up until every one does. */
async function findThreshold(learner) {
  do {
    const from = Number(await learner.figureOf("output"));
    await learner.turn("output", "down", (to) => to >= 0.8 * from - 1e-9);
  } while (!(await learner.crossWithin(5)));
  do {
    await learner.oneKey("output", "up");
    await learner.wait(SETTLED_S);
  } while (await learner.crossWithin(4.2));
  return Number(await learner.figure());
}

/** Somebody who sees the monitor and the dials, and has a finger. */
class Learner {
  /** The longest time between two presses of one turn, in the patient's seconds. */
  apartS = 0;
  /** The longest look at the glass for crosses, with the pause before it, in seconds. */
  lookS = 0;
  #pressed = 0;

  constructor(ward) {
    this.app = ward.app;
    this.person = somebody(ward);
  }

  pace() {
    return `presses of one turn at most ${this.apartS.toFixed(1)} s apart, looks ${this.lookS.toFixed(2)} s`;
  }

  wait(s) {
    return sleep((s * 1000) / TIMES_FASTER);
  }

  pulse() {
    return this.app.script("return document.querySelector('.monitor-says b')?.textContent;");
  }

  figure() {
    return this.app.script("return document.querySelector('.reading b').textContent;");
  }

  /** The dial is taken under the hand first. */
  async figureOf(dial) {
    if (!(await this.app.has(`[data-key^="${dial}-"]`))) {
      await this.app.click(`take-${dial}`);
      this.#pressed = performance.now();
      await this.app.find(`[data-key^="${dial}-"]`);
    }
    return this.figure();
  }

  /** One turn to this figure, or where the dial ends on the way. */
  async turnTo(dial, figure) {
    const way = Number(await this.figureOf(dial)) > figure ? "down" : "up";
    await this.turn(dial, way, (to) => (way === "down" ? to >= figure : to <= figure));
  }

  /** One turn by as many keys as lead no further than `may`; by one key where each leads further. */
  async turn(dial, way, may) {
    await this.figureOf(dial);
    for (let last = 0, at = await this.#leadsTo(dial, way); ; ) {
      const { stands, to } = at;
      const key = [`far-${way}`, way].find((key) => key in to && may(to[key]));
      if (!key && (last > 0 || !(way in to))) return;
      at = await this.#press(dial, key ?? way, stands);
      const now = performance.now();
      if (last > 0) this.apartS = Math.max(this.apartS, ((now - last) / 1000) * TIMES_FASTER);
      last = now;
    }
  }

  async oneKey(dial, key) {
    await this.#press(dial, key, await this.figureOf(dial));
  }

  /** One press, and what the keys then say; one that comes too soon would be the second half of a double tap. */
  async #press(dial, key, before) {
    await sleep(Math.max(0, this.#pressed + this.person.pauseMs - performance.now()));
    await this.app.click(`${dial}-${key}`);
    this.#pressed = performance.now();
    const turned = async () => {
      const now = await this.#leadsTo(dial, key.replace("far-", ""));
      return now.stands !== before && now;
    };
    return until(`${dial} to turn from ${before}`, turned);
  }

  /** Where the dial stands, and the figure that each of its keys says it turns to. */
  #leadsTo(dial, way) {
    return this.app.script(
      `const [dial, way] = arguments;
       const keys = ["far-" + way, way].map((key) => [key, document.querySelector('[data-key="' + dial + "-" + key + '"]')]);
       const note = (key) => Number(/[\\d.]+/.exec(key.innerText)[0]);
       const to = keys.filter(([, key]) => key && !key.disabled).map(([name, key]) => [name, note(key)]);
       return { stands: document.querySelector(".reading b").textContent, to: Object.fromEntries(to) };`,
      dial,
      way,
    );
  }

  /** A cross, the sign of a spike without a beat, has come on the strip that was not there when this was asked. */
  async crossWithin(s) {
    const end = performance.now() + (s * 1000) / TIMES_FASTER;
    for (let before = new Set(await this.#crosses()), last = performance.now(); performance.now() < end; await sleep(80)) {
      const now = await this.#crosses();
      this.lookS = Math.max(this.lookS, (performance.now() - last) / 1000);
      last = performance.now();
      if (now.some((column) => !before.has(column))) return true;
      before = new Set(now);
    }
    return false;
  }

  /** Columns of the strip in which something is drawn in the ink of crosses. */
  #crosses() {
    return this.app.script(CROSSES);
  }
}

const CROSSES = `
  const trace = document.querySelector(".glass .trace");
  const pen = trace.getContext("2d");
  const alarm = getComputedStyle(document.documentElement).getPropertyValue("--alarm").trim();
  const sample = document.createElement("canvas").getContext("2d");
  sample.fillStyle = alarm;
  sample.fillRect(0, 0, 1, 1);
  const [r, g, b] = sample.getImageData(0, 0, 1, 1).data;
  const { width, height } = trace;
  const ink = pen.getImageData(0, 0, width, height).data;
  const columns = [];
  for (let x = 0; x < width; x += 1) {
    for (let y = 0; y < height; y += 1) {
      const at = 4 * (y * width + x);
      const near = Math.abs(ink[at] - r) + Math.abs(ink[at + 1] - g) + Math.abs(ink[at + 2] - b) < 40;
      if (near && ink[at + 3] > 200) { columns.push(x); break; }
    }
  }
  return columns;`;
