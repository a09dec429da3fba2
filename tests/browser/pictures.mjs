// A picture of every card, into pictures/: each golden view by night and by day, and a whole check in
// the real app, card by card, at the speed of life (some minutes). Sheets show many at once.
//   node tests/browser/pictures.mjs                    all of it
//   node tests/browser/pictures.mjs capture- restore   only the golden views so named
import { execFileSync } from "node:child_process";
import { cpSync, mkdtempSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { basename, join } from "node:path";
import { fileURLToPath } from "node:url";
import { session } from "./driver.mjs";
import { admitted, newBed, QUIET } from "./flows/ward.mjs";
import { goldenViews, inCase } from "./layout-cases.mjs";
import { draw } from "./layout-draw.mjs";
import { contentSecurityPolicy } from "./layout-policy.mjs";
import { Person } from "./person.mjs";
import { serve } from "./serve.mjs";

const ROOT = fileURLToPath(new URL("../..", import.meta.url));
const PICTURES = join(ROOT, "pictures");
const BUILT = join(ROOT, "ui/dist-replay");
/** Of a package that the checks install: ImageMagick names no font of its own that is sure to be there. */
const FONT = "/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf";
const APP = join(process.env.CARGO_TARGET_DIR ?? join(ROOT, "target"), "debug/holdfast");
const SIZES = [[800, 1280], [390, 844], [1280, 800]];

const ASKED = process.argv.slice(2);

if (!goldenViews().some(isAsked)) throw new Error(`no golden view's name begins with ${ASKED.join(" or ")}`);
rmSync(PICTURES, { recursive: true, force: true });
await ofGoldenViews();
if (ASKED.length === 0) await ofRealCheck();

async function ofGoldenViews() {
  execFileSync("npm", ["--prefix", "ui", "run", "--silent", "build:replay", "--", "--logLevel", "error"], { cwd: ROOT });
  cpSync(join(ROOT, "scenarios/views"), join(BUILT, "views"), { recursive: true });
  const server = await serve(BUILT, { "content-security-policy": contentSecurityPolicy(ROOT) });
  const page = await session({ url: `${server.url}/replay.html` });
  for (const [width, height] of SIZES) {
    await page.setSize(width, height);
    for (const light of ["Night", "Day"]) {
      const folder = join(PICTURES, `${width}x${height}-${light.toLowerCase()}`);
      for (const { name, view } of goldenViews().filter(isAsked)) {
        await draw(page, inCase({ ...view, look: { ...view.look, still: true } }, { light, text: 100, hand: "Right" }));
        await page.screenshot(join(folder, `${name}.png`));
      }
      sheets(folder, width);
    }
  }
  await page.close();
  server.close();
}

function isAsked({ name }) {
  return ASKED.length === 0 || ASKED.some((part) => name.startsWith(part));
}

/** Many pictures on one, named, to be looked at together. ImageMagick holds only so many at once. */
function sheets(folder, width) {
  const [across, down, tile] = width > 1000 ? [4, 5, "480x"] : [8, 3, "240x"];
  const frame = ["-font", FONT, "-label", "%t", "-tile", `${across}x`, "-geometry", "+4+4", "-pointsize", "11"];
  const pictures = readdirSync(folder).sort().map((name) => join(folder, name));
  for (let from = 0; from < pictures.length; from += across * down) {
    const shown = pictures.slice(from, from + across * down).map((picture) => `${picture}[${tile}]`);
    const number = String(from / (across * down)).padStart(2, "0");
    execFileSync("montage", [...frame, ...shown, join(PICTURES, `${basename(folder)}-${number}.png`)]);
  }
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
  for (const key of ["code", "bed", "history", "back", "beds", "settings", "light-day", "back"]) await person.tap(key);
  await stopped(person);
  await take("beds");
}

/** In another bed, by day: OUTPUT is lost on its way down, and the check is stopped there. */
async function stopped(person) {
  Object.assign(person.dials, QUIET.found);
  await newBed(person, "Bay 4", "ventricle");
  await person.tap("start-1");
  await person.carryOn((card) => card.keys.includes("beats-again"));
  await person.tap("stop");
  await person.carryOn((card) => card.keys.includes("beds") || card.keys.includes("bed"));
}
