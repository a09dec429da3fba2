// Start, tap, memory and size of the app, each against the least that this machine needs for the same.
import { execFileSync } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as sleep } from "node:timers/promises";
import { fileURLToPath } from "node:url";
import { gzipSync } from "node:zlib";
import { bar, quantile, report } from "./bench-table.mjs";
import { session, until } from "./driver.mjs";
import { bornAt, familyOf } from "./processes.mjs";

const ROOT = fileURLToPath(new URL("../..", import.meta.url));
const BUILT = join(process.env.CARGO_TARGET_DIR ?? join(ROOT, "target"), "release");
const ROUNDS = 10;
const TAPS = 100;
const EVENTS = 10_000;
const folder = mkdtempSync(join(tmpdir(), "holdfast-bench-"));

const openApp = () => session({ binary: join(BUILT, "holdfast"), env: { HOLDFAST_DATA: folder } });
const openBare = () => session({ binary: join(BUILT, "examples/bare") });

/** Milliseconds from the start of the process to the moment the page says it was drawn. */
async function startOf(window, drawnAt) {
  const at = await until("the first drawing", () => window.script(drawnAt));
  const [pid] = window.pids();
  const bootedAt = Date.now() - Number(readFileSync("/proc/uptime", "utf8").split(" ")[0]) * 1_000;
  return at - (bootedAt + bornAt(pid) * 10);
}

const FIRST_PAINT = `const paint = performance.getEntriesByName("first-contentful-paint")[0];
  return paint ? performance.timeOrigin + paint.startTime : null;`;
const BARE_DRAWN = FIRST_PAINT;
/** Of the card: the page holds a sentence that is seen before it, where it is painted earlier. */
const APP_DRAWN = `const { rendered, painted } = document.getElementById("card")?.dataset ?? {};
  if (!painted) return null;
  const first = (() => { ${FIRST_PAINT} })();
  if (first !== null && first < Number(rendered)) throw new Error("the first paint was not the card's");
  return first;`;

/** Proportional share of memory of the program and all it started, MB. */
function memoryOf(window) {
  return window.pids().flatMap(familyOf).reduce((sum, pid) => sum + shareOf(pid), 0) / 1_024;
}

function shareOf(pid) {
  const rollup = readFileSync(`/proc/${pid}/smaps_rollup`, "utf8");
  return Number(/^Pss:\s+(\d+) kB/m.exec(rollup)[1]);
}

async function startsAndMemory() {
  const seen = { app: [], bare: [], appMemory: [], bareMemory: [] };
  for (let round = 0; round < ROUNDS; round += 1) {
    for (const [name, open, drawn] of [["app", openApp, APP_DRAWN], ["bare", openBare, BARE_DRAWN]]) {
      const window = await open();
      seen[name].push(await startOf(window, drawn));
      await sleep(1_000);
      seen[`${name}Memory`].push(memoryOf(window));
      await window.close();
    }
  }
  bar(`start to bed list, ${EVENTS} events, median of ${ROUNDS}`, quantile(seen.app, 0.5), 1.25 * quantile(seen.bare, 0.5), "ms");
  bar("memory of the process tree, median", quantile(seen.appMemory, 0.5), 1.15 * quantile(seen.bareMemory, 0.5), "MB");
}

/** Taps a choice that is recorded and redraws the whole card. */
async function taps() {
  const window = await openApp();
  await until("the bed list", () => window.script(APP_DRAWN));
  // A card that has only just come takes no tap.
  await sleep(400);
  await window.click("settings");
  await window.find('[data-key="light-day"]');
  const took = [];
  for (let tap = 0; tap < TAPS; tap += 1) {
    await sleep(350);
    took.push(await window.scriptAsync(TIMED_TAP, tap % 2 === 0 ? "light-night" : "light-day"));
  }
  await window.close();
  const raw = execFileSync(join(BUILT, "examples/bench"), ["commits", folder, "300"], { encoding: "utf8" });
  const commits = raw.trim().split("\n").map(Number);
  bar(`tap to painted card, p95 of ${TAPS}`, quantile(took, 0.95), quantile(commits, 0.95) + 33, "ms");
}

const TIMED_TAP = `const [key, done] = arguments;
  const card = document.getElementById("card");
  let from;
  const seen = new MutationObserver(() => { seen.disconnect(); done(performance.now() - from); });
  seen.observe(card, { attributes: true, attributeFilter: ["data-painted"] });
  from = performance.now();
  document.querySelector('[data-key="' + key + '"]').click();`;

function sizes() {
  const assets = join(ROOT, "ui/dist/assets");
  const code = readdirSync(assets).filter((name) => /\.(js|css)$/.test(name));
  const packed = code.reduce((sum, name) => sum + gzipSync(readFileSync(join(assets, name))).length, 0);
  bar("script and style, gzip", packed / 1_000, 30, "kB");
  bar("release program, stripped", statSync(join(BUILT, "holdfast")).size / 1_000_000, 11, "MB");
}

try {
  execFileSync(join(BUILT, "examples/bench"), ["fill", folder, String(EVENTS)]);
  sizes();
  await startsAndMemory();
  await taps();
} finally {
  report();
  rmSync(folder, { recursive: true, force: true });
}
