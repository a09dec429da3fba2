// A picture of every card, into pictures/: each golden view by night and by day, and a whole check in
// the real app, card by card, at the speed of life (some minutes).
import { execFileSync } from "node:child_process";
import { cpSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { session } from "./driver.mjs";
import { admitted, QUIET } from "./flows/ward.mjs";
import { goldenViews, inCase } from "./layout-cases.mjs";
import { contentSecurityPolicy } from "./layout-policy.mjs";
import { Person } from "./person.mjs";
import { serve } from "./serve.mjs";

const ROOT = fileURLToPath(new URL("../..", import.meta.url));
const PICTURES = join(ROOT, "pictures");
const BUILT = join(ROOT, "ui/dist-replay");
const APP = join(process.env.CARGO_TARGET_DIR ?? join(ROOT, "target"), "debug/holdfast");
const SIZES = [[800, 1280], [390, 844], [1280, 800]];

rmSync(PICTURES, { recursive: true, force: true });
await ofGoldenViews();
await ofRealCheck();

async function ofGoldenViews() {
  execFileSync("npm", ["--prefix", "ui", "run", "--silent", "build:replay", "--", "--logLevel", "error"], { cwd: ROOT });
  cpSync(join(ROOT, "scenarios/views"), join(BUILT, "views"), { recursive: true });
  const server = await serve(BUILT, { "content-security-policy": contentSecurityPolicy(ROOT) });
  const page = await session({ url: `${server.url}/replay.html` });
  for (const [width, height] of SIZES) {
    await page.setSize(width, height);
    for (const light of ["Night", "Day"]) {
      for (const { name, view } of goldenViews()) {
        await draw(page, inCase(view, { light, text: 100, hand: "Right", language: "english" }));
        await page.screenshot(join(PICTURES, `${width}x${height}-${light.toLowerCase()}`, `${name}.png`));
      }
    }
  }
  await page.close();
  server.close();
}

function draw(page, view) {
  return page.scriptAsync(
    `const done = arguments[1];
     replay.show(arguments[0]);
     document.fonts.ready.then(() => requestAnimationFrame(() => setTimeout(done, 50)));`,
    view,
  );
}

async function ofRealCheck() {
  const folder = mkdtempSync(join(tmpdir(), "holdfast-pictures-"));
  const app = await session({ binary: APP, env: { HOLDFAST_DATA: folder } });
  try {
    await app.setSize(800, 1280);
    const person = new Person(app, QUIET.heart, QUIET.found);
    person.pauseMs = 420;
    await pictured(app, person);
  } finally {
    await app.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Every card before its answer, numbered in the order in which they came. */
async function pictured(app, person) {
  let number = 0;
  const take = (key) => app.screenshot(join(PICTURES, "check", `${String((number += 1)).padStart(3, "0")}-${key}.png`));
  person.click = async (key) => {
    await take(key);
    await app.click(key);
  };
  await admitted(person, "ventricle");
  await person.carryOn((card) => card.keys.includes("code"));
  for (const key of ["code", "bed", "history-1"]) await person.tap(key);
  await app.find('[data-key="bed"]');
  await take("history");
}
