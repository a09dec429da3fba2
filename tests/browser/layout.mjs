// Draws the golden views in WebKit and measures what is on the glass.
//   node --test tests/browser/layout.mjs            every pair of conditions
//   LAYOUT=all node --test tests/browser/layout.mjs everything
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { cpSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, describe, test } from "node:test";
import { fileURLToPath } from "node:url";
import { session } from "./driver.mjs";
import { everything, goldenViews, inCase, pairwise } from "./layout-cases.mjs";
import { draw } from "./layout-draw.mjs";
import { behaviours } from "./layout-behaviour.mjs";
import { readability } from "./layout-figures.mjs";
import { faultsOfCard } from "./layout-page.mjs";
import { contentSecurityPolicy } from "./layout-policy.mjs";
import { serve } from "./serve.mjs";

const ROOT = fileURLToPath(new URL("../..", import.meta.url));
const BUILT = mkdtempSync(join(tmpdir(), "holdfast-replay-"));
const AXE = readFileSync(join(ROOT, "ui/node_modules/axe-core/axe.min.js"), "utf8");
const AXE_TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22a", "wcag22aa"];
const WHOLE = process.env.LAYOUT === "all";
const CASES = WHOLE ? everything() : pairwise();
const LIMITS = { leastControl: 60, leastAnswer: 96, leastGap: 16, leastText: 14, contrastText: 7, contrastEdge: 3 };

const world = { page: null, url: "" };

before(async () => {
  execFileSync("npm", ["--prefix", "ui", "run", "--silent", "build:replay", "--", "--logLevel", "error", "--outDir", BUILT], { cwd: ROOT });
  cpSync(join(ROOT, "scenarios/views"), join(BUILT, "views"), { recursive: true });
  const server = await serve(BUILT, { "content-security-policy": contentSecurityPolicy(ROOT) });
  world.url = `${server.url}/replay.html`;
  world.page = await session({ url: world.url });
  world.server = server;
});

after(async () => {
  await world.page?.close();
  world.server?.close();
  rmSync(BUILT, { recursive: true, force: true });
});

describe("golden views", () => {
  for (const one of CASES) {
    test(`${one.size} ${one.light} ${one.text} % ${one.hand} ${one.language}`, async () => {
      await resize(one.size);
      const faults = [];
      for (const { name, view } of goldenViews()) faults.push(...(await faultsOf(name, inCase(view, one), one)));
      assert.ok(faults.length === 0, `\n${faults.join("\n")}`);
    });
  }
});

behaviours(world);
readability(world, ROOT);

async function resize(size) {
  const [width, height] = size.split("x").map(Number);
  await world.page.setSize(width, height);
}

async function faultsOf(name, view, one) {
  await draw(world.page, view);
  const narrow = one.size === "390x844";
  const found = await world.page.script(`return (${faultsOfCard})(...arguments)`, LIMITS, narrow && one.text > 100);
  const seenByAxe = askAxe(one) ? await axe() : [];
  return [...found, ...seenByAxe].map((fault) => `${name}: ${fault}`);
}

/** What axe judges hangs on neither hand nor language: the first and last case when time is short. */
function askAxe(one) {
  if (WHOLE) return one.hand === "Right" && one.language === "english";
  return one === CASES[0] || one === CASES.at(-1);
}

async function axe() {
  const present = await world.page.script("return 'axe' in window");
  if (!present) await world.page.script(AXE);
  return world.page.scriptAsync(
    `const done = arguments[1];
     axe.run(document, { runOnly: arguments[0], resultTypes: ["violations"] }).then(
       ({ violations }) => done(violations.map((one) => one.id + ": " + one.nodes.map((node) => node.target).join(" "))),
       (fault) => done([String(fault)]));`,
    AXE_TAGS,
  );
}
