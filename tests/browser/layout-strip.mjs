// The strip, by its pixels: 25 mm for a second and 10 mm for a millivolt on the grid behind it, breaks where
// nothing came, still when frozen, looked back over by key.
import assert from "node:assert/strict";
import { describe, test } from "node:test";
import { KEYS, until } from "./driver.mjs";
import { draw } from "./layout-draw.mjs";
import { goldenViews } from "./layout-cases.mjs";
import { madeBatch } from "./strip-made.mjs";

const STREAM = 7;
const HZ = 500;
const SAMPLES = 25;

/** 1 mV for half a second, 0 mV for the other half. */
const square = (sample) => (sample % HZ < HZ / 2 ? 1000 : 0);

const act = (key, label) => ({ key, label, note: null, tone: "Plain", command: key, with_fields: false });

function besidePatient(view, kept) {
  const words = { scale: "25 mm/s · 10 mm/mV", pulse: "pulse", words: "strip", freeze: "Freeze", run: "Run", earlier: "Earlier", later: "Later" };
  const monitor = { stream: STREAM, kept, pause: kept ? null : act("pause", "Pause"), ...words };
  return { ...view, practice: { monitor, knobs: [] } };
}

/** @param {{page: any, url: string}} world filled before the tests run */
export function strips(world) {
  const script = (body, ...args) => world.page.script(body, ...args);
  const view = goldenViews().find(({ name }) => name === "capture-down-open").view;

  /** Each time on a page of its own: nothing is left of an earlier strip. */
  async function shown(size, kept) {
    await world.page.go(world.url);
    await world.page.setSize(...size);
    await draw(world.page, besidePatient(view, kept));
  }

  async function send(numbers, made = {}) {
    await script("arguments[0].forEach((bytes) => replay.strip(bytes))", numbers.map((number) => madeBatch(STREAM, number, made)));
    await new Promise((resolve) => setTimeout(resolve, 150));
  }

  const count = (from, to) => Array.from({ length: to - from }, (_, at) => from + at);
  const steps = () => script(`return (${stepsOf})()`);

  describe("the strip", () => {
    for (const size of [[800, 1280], [600, 960], [1280, 800]]) {
      test(`is 25 mm for a second and 10 mm for a millivolt at ${size.join("×")}`, async () => {
        await shown(size, true);
        await send(count(0, 200), { ecg: square, marks: [] });
        const { mm, rises, high, strongColumns, strongRows } = await steps();
        assert.ok(mm >= 2 && rises.length >= 2, `${mm} px for a millimetre, steps at ${rises}`);
        for (const [at, rise] of rises.slice(1).entries()) {
          assert.ok(Math.abs(rise - rises[at] - 25 * mm) <= 1, `a second is ${rise - rises[at]} px, a millimetre ${mm}`);
        }
        assert.ok(Math.abs(high - 10 * mm) <= 1, `a millivolt is ${high} px, a millimetre ${mm}`);
        assert.deepEqual([...new Set(strongColumns)], [5 * mm], "each fifth line is strong: 0.2 s");
        assert.deepEqual([...new Set(strongRows)], [5 * mm], "and 0.5 mV");
      });
    }

    test("breaks where batches are missing, and joins nothing across", async () => {
      await shown([800, 1280], true);
      await send([...count(0, 150), ...count(170, 200)], { ecg: () => 500, marks: [] });
      const { mm, empty } = await steps();
      const missing = (20 * SAMPLES * 25 * mm) / HZ;
      assert.equal(empty.length, 1, `one break: ${empty}`);
      assert.ok(Math.abs(empty[0] - missing) <= 3, `${empty[0]} px are free, ${missing} are missing`);
    });

    test("is not drawn of another patient", async () => {
      await shown([800, 1280], true);
      await script("arguments[0].forEach((bytes) => replay.strip(bytes))", count(0, 100).map((number) => madeBatch(STREAM + 1, number)));
      await new Promise((resolve) => setTimeout(resolve, 200));
      assert.equal((await steps()).drawn, 0);
    });

    test("leaves nothing of the sweep before", async () => {
      await shown([800, 1280], false);
      const breadth = await script("const { width, dataset } = document.querySelector('.glass .trace'); return width / (25 * dataset.mm);");
      const flatFrom = Math.ceil(breadth + 0.5) * HZ;
      const ecg = (sample) => (sample < flatFrom ? square(sample * 10) : 0);
      const began = performance.now();
      let wasHigh = false;
      const end = flatFrom / SAMPLES + Math.ceil((breadth + 1) * (HZ / SAMPLES));
      for (let sent = 0; sent < end; ) {
        const now = Math.min(end, Math.round((performance.now() - began) / 50) + 8);
        await send(count(sent, now), { ecg, marks: [] });
        sent = now;
        wasHigh ||= (await script(`return (${inkAbove})()`)) > 0;
      }
      assert.ok(wasHigh, "there was something to leave");
      await until("the last of it to be drawn", async () => (await script(`return (${inkAbove})()`)) === 0, { timeoutMs: 3_000 });
    });

    test("runs on while batches come, stands when frozen, and is looked back over by key", async () => {
      await shown([800, 1280], false);
      await send(count(0, 40));
      await until("the strip to run", async () => (await steps()).drawn > 50);
      await world.page.click("strip-freeze");
      await world.page.find('[data-key="strip-run"]');
      await new Promise((resolve) => setTimeout(resolve, 150));
      const frozen = await picture();
      await send(count(40, 80));
      assert.equal(await picture(), frozen, "frozen");
      await script("document.querySelector('[data-key=\"strip-earlier\"]').focus()");
      await world.page.keys([KEYS.ArrowLeft]);
      await until("an earlier second", async () => (await picture()) !== frozen);
      await world.page.keys([KEYS.ArrowRight]);
      await until("the frozen one again", async () => (await picture()) === frozen);
      await world.page.click("strip-run");
      await until("the strip to run on", async () => (await picture()) !== frozen);
    });
  });

  const picture = () => script("return document.querySelector('.glass .trace').toDataURL()");
}

/** Runs in the page: how many points far above the baseline are not clear. */
function inkAbove() {
  const trace = document.querySelector(".glass .trace");
  const [mm, base] = [Number(trace.dataset.mm), Number(trace.dataset.baseline)];
  const ink = trace.getContext("2d").getImageData(0, 0, trace.width, base - 2 * mm).data;
  return ink.filter((level, at) => at % 4 === 3 && level > 0).length;
}

/** Runs in the page: where the trace steps up, how high, where nothing is drawn, and how far strong lines lie apart. */
function stepsOf() {
  const [grid, trace] = [".paper", ".trace"].map((name) => document.querySelector(`.glass ${name}`));
  const [mm, base] = [Number(trace.dataset.mm), Number(trace.dataset.baseline)];
  const { width } = trace;
  const ink = trace.getContext("2d").getImageData(0, 0, width, base + mm).data;
  const tops = Array.from({ length: width }, (_, x) => middleOf(x));
  const up = tops.map((top) => top !== null && base - top > 5 * mm);
  const rises = up.flatMap((is, x) => (x > 0 && is && !up[x - 1] && tops[x - 1] !== null ? [x] : []));
  const level = tops.filter((_, x) => x > 2 && x < width - 3 && [-2, -1, 0, 1, 2].every((by) => up[x + by]));
  const high = level.length > 0 ? base - level[Math.floor(level.length / 2)] : 0;
  const first = tops.findIndex((top) => top !== null);
  const last = tops.findLastIndex((top) => top !== null);
  return { mm, rises, high, empty: runs(tops.slice(first, last + 1)), drawn: tops.filter((top) => top !== null).length, ...strong() };

  /** Of the topmost stroke in this column. */
  function middleOf(x) {
    let from = null;
    for (let y = 0; y < base + mm; y += 1) {
      const drawn = ink[4 * (y * width + x) + 3] > 100;
      if (drawn && from === null) from = y;
      if (!drawn && from !== null) return (from + y - 1) / 2;
    }
    return from === null ? null : (from + base + mm - 1) / 2;
  }

  function runs(columns) {
    const lengths = [];
    let run = 0;
    for (const column of [...columns, 0]) {
      if (column === null) run += 1;
      else if (run > 0) lengths.push(run);
      if (column !== null) run = 0;
    }
    return lengths.filter((length) => length > 4);
  }

  /** Distances between strong lines, along a row and a column that lie on no line themselves. */
  function strong() {
    const pen = grid.getContext("2d");
    const ink = getComputedStyle(document.documentElement).getPropertyValue("--paper-strong").trim();
    pen.save();
    const wanted = colourOf(ink);
    pen.restore();
    const row = pen.getImageData(0, base + 1, grid.width, 1).data;
    const column = pen.getImageData(1, 0, 1, base).data;
    return { strongColumns: apart(row, wanted), strongRows: apart(column, wanted) };
  }

  function apart(pixels, wanted) {
    const places = [];
    for (let at = 0; at < pixels.length / 4; at += 1) {
      if (wanted.every((channel, index) => Math.abs(channel - pixels[4 * at + index]) < 2) && pixels[4 * at + 3] > 200) places.push(at);
    }
    return places.slice(1).map((place, at) => place - places[at]);
  }

  function colourOf(text) {
    const probe = Object.assign(document.createElement("canvas"), { width: 1, height: 1 }).getContext("2d");
    probe.fillStyle = text;
    probe.fillRect(0, 0, 1, 1);
    return [...probe.getImageData(0, 0, 1, 1).data].slice(0, 3);
  }
}
