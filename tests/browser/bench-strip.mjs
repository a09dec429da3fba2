// Practice with the strip running: frames beside an empty page's in the same run, how soon a dial turn shows, and
// whether the page's memory stays where it is. STRIP_MINUTES shortens the last for a trial.
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as sleep } from "node:timers/promises";
import { fileURLToPath } from "node:url";
import { bar, quantile, report } from "./bench-table.mjs";
import { session, until } from "./driver.mjs";

const ROOT = fileURLToPath(new URL("../..", import.meta.url));
const BUILT = join(process.env.CARGO_TARGET_DIR ?? join(ROOT, "target"), "release");
const MINUTES = Number(process.env.STRIP_MINUTES ?? 10);
const ROUNDS = 6;
const ROUND_MS = 3_000;
const TURNS = 30;
const folder = mkdtempSync(join(tmpdir(), "holdfast-bench-"));

/** Milliseconds between frames, for so long. */
const FRAMES = `const [ms, done] = arguments;
  const gaps = [];
  let last = performance.now();
  const end = last + ms;
  requestAnimationFrame(function frame(now) {
    gaps.push(now - last);
    last = now;
    if (now < end) return requestAnimationFrame(frame);
    done(gaps);
  });`;

/** Something small that moves: without it an empty page draws no frame. */
const A_BOX = `const box = document.createElement("div");
  box.style.cssText = "position: fixed; inset: 0 auto auto 0; width: 10px; height: 10px; background: gray";
  document.body.append(box);
  requestAnimationFrame(function step(now) {
    box.style.transform = "translateX(" + (now / 10) % 300 + "px)";
    requestAnimationFrame(step);
  });`;

const TURN = `const [key, done] = arguments;
  const reading = document.querySelector(".reading b");
  const from = performance.now();
  const seen = new MutationObserver(() => {
    seen.disconnect();
    requestAnimationFrame(() => done(performance.now() - from));
  });
  seen.observe(reading, { characterData: true, childList: true, subtree: true });
  document.querySelector('[data-key="' + key + '"]').click();`;

/** A person's time between two taps. */
const PAUSE_MS = 400;

async function practising() {
  const window = await session({ binary: join(BUILT, "holdfast"), env: { HOLDFAST_DATA: folder } });
  await window.setSize(800, 1280);
  for (const key of ["welcomed", "practice", "exercise-quiet", "alone"]) {
    await window.find(`[data-key="${key}"]`);
    await sleep(PAUSE_MS);
    await window.click(key);
  }
  await window.find(".glass .trace");
  await sleep(3_000);
  return window;
}

async function empty() {
  const window = await session({ binary: join(BUILT, "examples/bare") });
  await window.setSize(800, 1280);
  await until("the page", () => window.script("return document.body !== null"));
  await window.script(A_BOX);
  return window;
}

/** In turns, so that both meet the same machine. */
async function frames(strip) {
  const box = await empty();
  const gaps = { strip: [], box: [] };
  for (let round = 0; round < ROUNDS; round += 1) {
    gaps.box.push(...(await box.scriptAsync(FRAMES, ROUND_MS)));
    gaps.strip.push(...(await strip.scriptAsync(FRAMES, ROUND_MS)));
  }
  await box.close();
  const mean = (values) => values.reduce((sum, value) => sum + value, 0) / values.length;
  for (const [name, of] of [["empty page", gaps.box], ["strip", gaps.strip]]) {
    bar(`${name}: frame, mean`, mean(of), 1_000 / 58, "ms");
    bar(`${name}: frame, p95`, quantile(of, 0.95), 20, "ms");
    bar(`${name}: frame, p99`, quantile(of, 0.99), 30, "ms");
  }
}

async function turns(strip) {
  const took = [];
  for (let turn = 0; turn < TURNS; turn += 1) {
    await sleep(PAUSE_MS);
    took.push(await strip.scriptAsync(TURN, turn % 2 === 0 ? "output-down" : "output-up"));
  }
  bar(`dial turn to the figure drawn, longest of ${TURNS}`, Math.max(...took), 250, "ms");
}

/** Of the process that draws the page, MB. */
function pageMemory(window) {
  const [page] = window.webPids();
  return Number(/^Pss:\s+(\d+) kB/m.exec(readFileSync(`/proc/${page}/smaps_rollup`, "utf8"))[1]) / 1_024;
}

/** Until the page's scripts are compiled and its heap has found its size: an empty page grows meanwhile too. */
const WARM_MINUTES = 5;

/** The median of the last minute against that of the first, of ten behind the warming up. */
async function memory(strip) {
  await sleep(60_000);
  const cold = pageMemory(strip);
  await sleep((WARM_MINUTES - 1) * 60_000);
  const seen = [];
  const end = Date.now() + MINUTES * 60_000;
  while (Date.now() < end) {
    seen.push({ at: Date.now(), mb: pageMemory(strip) });
    await sleep(5_000);
  }
  const median = (part) => quantile(part.map((one) => one.mb), 0.5);
  const [first, last] = [seen[0].at, seen.at(-1).at];
  const early = median(seen.filter((one) => one.at - first < 60_000));
  const late = median(seen.filter((one) => last - one.at < 60_000));
  console.log(
    `page memory: ${cold.toFixed(1)} MB after a minute, ${early.toFixed(1)} after ${WARM_MINUTES}, ${late.toFixed(1)} in the last of ${MINUTES} more`,
  );
  bar("page memory, how far apart", Math.max(Math.abs(late - early), 0.01), 2, "MB");
}

try {
  const strip = await practising();
  await frames(strip);
  await turns(strip);
  await memory(strip);
  await strip.close();
} finally {
  report();
  rmSync(folder, { recursive: true, force: true });
}
