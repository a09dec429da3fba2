// Draws the golden views in WebKit and measures what is on the glass.
//   node --test tests/browser/layout.mjs            each card at each size, any two conditions together
//   LAYOUT=all node --test tests/browser/layout.mjs each card in all conditions
//   ONLY=PREFIX … the cards of that name alone, for people
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { cpSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, describe, test } from "node:test";
import { fileURLToPath } from "node:url";
import { session } from "./driver.mjs";
import { allCases, casesOfCard, CONDITIONS, goldenViews, inCase, unmetPairs } from "./layout-cases.mjs";
import { draw } from "./layout-draw.mjs";
import { behaviours } from "./layout-behaviour.mjs";
import { readability } from "./layout-figures.mjs";
import { faultsOfCard } from "./layout-page.mjs";
import { contentSecurityPolicy } from "./layout-policy.mjs";
import { strips } from "./layout-strip.mjs";
import { serve } from "./serve.mjs";

const ROOT = fileURLToPath(new URL("../..", import.meta.url));
const BUILT = mkdtempSync(join(tmpdir(), "holdfast-replay-"));
const AXE = readFileSync(join(ROOT, "ui/node_modules/axe-core/axe.min.js"), "utf8");
const AXE_TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22a", "wcag22aa"];
const WHOLE = process.env.LAYOUT === "all";
const ONLY = process.env.ONLY ?? "";
const VIEWS = Object.fromEntries(CONDITIONS.language.map((language) => [language, goldenViews(language)]));
const CARDS = VIEWS.english.map(({ name }) => name);
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

test("any two conditions meet, and every card meets every condition", () => {
  const cases = CARDS.map((_, index) => casesOfCard(index));
  assert.deepEqual(unmetPairs(cases.flat()), []);
  for (const [name, values] of Object.entries(CONDITIONS)) {
    for (const value of values) assert.ok(cases.every((of) => of.some((one) => one[name] === value)), `${name} ${value}`);
  }
});

// Two windows at a time: one draws while the other is measured.
describe("golden views", { concurrency: 2 }, () => {
  for (const size of CONDITIONS.size) {
    test(size, async () => {
      const page = await session({ url: world.url });
      try {
        await page.setSize(...size.split("x").map(Number));
        const faults = [];
        for (const [index, one] of drawnAt(size)) faults.push(...(await faultsOf(page, index, one)));
        assert.ok(faults.length === 0, `\n${faults.join("\n")}`);
      } finally {
        await page.close();
      }
    });
  }
});

behaviours(world);
readability(world, ROOT);
strips(world);

/** Which cards are drawn at this size, each with its conditions. */
function drawnAt(size) {
  const cases = (index) => (WHOLE ? allCases()[size] : casesOfCard(index).filter((one) => one.size === size));
  return CARDS.flatMap((name, index) => (name.startsWith(ONLY) ? cases(index).map((one) => [index, one]) : []));
}

async function faultsOf(page, index, one) {
  const { name, view } = VIEWS[one.language][index];
  await draw(page, inCase(view, one));
  const narrow = one.size === "390x844";
  const found = await page.script(`return (${faultsOfCard})(...arguments)`, LIMITS, narrow && one.text > 100);
  const seenByAxe = askAxe(index, one) ? await axe(page) : [];
  const where = `${name} ${one.size} ${one.light} ${one.text} % ${one.hand} ${one.language}`;
  return [...found, ...seenByAxe].map((fault) => `${where}: ${fault}`);
}

/** What axe judges hangs on neither hand nor language; when time is short, once a card. */
function askAxe(index, one) {
  if (WHOLE) return one.hand === "Right" && one.language === "english" && one.text !== 150;
  return one.size === CONDITIONS.size[index % CONDITIONS.size.length];
}

async function axe(page) {
  const present = await page.script("return 'axe' in window");
  if (!present) await page.script(AXE);
  return page.scriptAsync(
    `const done = arguments[1];
     axe.run(document, { runOnly: arguments[0], resultTypes: ["violations"] }).then(
       ({ violations }) => done(violations.map((one) => one.id + ": " + one.nodes.map((node) => node.target).join(" "))),
       (fault) => done([String(fault)]));`,
    AXE_TAGS,
  );
}
