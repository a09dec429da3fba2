// Can it be read: figures at arm's length, the code by two scanners, and no more bytes than agreed.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, test } from "node:test";
import { gzipSync } from "node:zlib";
import { draw } from "./layout-draw.mjs";
import { goldenViews } from "./layout-cases.mjs";

const golden = Object.fromEntries(goldenViews().map(({ name, view }) => [name, view]));
/** Two figures are told apart when at least this share of their ink differs after the blur. Chosen by looking. */
const LEAST_DIFFERENCE = 0.125;
const STOCK = '"Atkinson Hyperlegible Next"';
/** 120 mm in CSS pixels. */
const CODE_PX = Math.ceil((120 / 25.4) * 96);
/** Left free at each side of the smallest screen. */
const EDGE_PX = 20;
const MOST_GZIPPED = 30_000;

/** @param {{page: any, url: string}} world filled before the tests run */
export function readability(world, root) {
  const script = (body, ...args) => world.page.script(body, ...args);

  const blurredDifference = (one, other, family) =>
    world.page.scriptAsync(
      `const done = arguments[3]; (${differenceOf})(arguments[0], arguments[1], arguments[2]).then(done, (fault) => done(String(fault)))`,
      one, other, family,
    );

  describe("figures", () => {
    for (const [one, other] of [["80", "88"], ["0.8", "8"], ["60", "66"], ["1.0", "10"], ["3.6", "8.6"], ["50", "60"]]) {
      test(`${one} does not read as ${other}, small and blurred`, async () => {
        const difference = await blurredDifference(one, other, null);
        assert.ok(difference >= LEAST_DIFFERENCE, `only ${difference} of the ink differs`);
      });
    }
    test("the zero without a slash is further from an 8 and a 6 than the font's own", async () => {
      for (const [one, other] of [["80", "88"], ["60", "66"]]) {
        const [plain, slashed] = [await blurredDifference(one, other, null), await blurredDifference(one, other, STOCK)];
        assert.ok(plain > 1.2 * slashed, `${one}, ${other}: ${plain} against ${slashed}`);
      }
    });
  });

  describe("the code", () => {
    const faces = ["screen-code", "screen-code-copy"];
    const screens = [["800x1280", "Night"], ["1280x800", "Day"], ["600x960", "Day"], ["390x844", "Night"]];
    for (const [face, [size, light]] of faces.flatMap((one) => screens.map((screen) => [one, screen]))) {
      test(`is whole pixels, black on white, large and read as it is at ${size}, ${light}: ${face}`, async () => {
        const [width, height] = size.split("x").map(Number);
        await world.page.setSize(width, height);
        const view = golden[face];
        await draw(world.page, { ...view, look: { ...view.look, light } });
        const across = view.shape.across + 8;
        const code = await script(
          `const svg = document.querySelector(".qr svg");
           return { side: svg.getBoundingClientRect().width * devicePixelRatio, ink: svg.querySelector("path").getAttribute("fill"), ground: svg.querySelector("rect").getAttribute("fill") };`,
        );
        assert.equal(code.side % across, 0);
        assert.deepEqual([code.ink, code.ground], ["#000", "#fff"]);
        const room = width - 2 * EDGE_PX;
        const least = room >= CODE_PX ? CODE_PX : room - (room % across);
        assert.ok(code.side >= least, `${code.side} px of ${least}`);
        isReadAs(await scanned(world.page), view.shape.rows);
      });
    }
  });

  test("script and style stay under 30 kB, compressed", () => {
    const built = mkdtempSync(join(tmpdir(), "holdfast-page-"));
    execFileSync("npm", ["--prefix", "ui", "run", "--silent", "build", "--", "--logLevel", "error", "--outDir", built], { cwd: root });
    const parts = readdirSync(join(built, "assets")).filter((name) => /\.(js|css)$/.test(name));
    const bytes = parts.reduce((sum, name) => sum + gzipSync(readFileSync(join(built, "assets", name))).length, 0);
    rmSync(built, { recursive: true });
    assert.ok(parts.length >= 2 && bytes <= MOST_GZIPPED, `${bytes} bytes in ${parts}`);
  });

  describe("larger text", () => {
    test("doubles small letters on a card that may scroll, and shrinks none on any card", async () => {
      await world.page.setSize(600, 960);
      const at = async (view, text_percent) => {
        await draw(world.page, { ...view, look: { ...view.look, text_percent } });
        return script(`return [...document.querySelectorAll(".card :is(.subtitle, .instruction, .question, .act .label, .choice, dt, dd, .note, .reason)")]
          .map((one) => Number.parseFloat(getComputedStyle(one).fontSize))`);
      };
      for (const [name, view] of Object.entries(golden)) {
        const [usual, large] = [await at(view, 100), await at(view, 200)];
        const shrunk = usual.filter((size, index) => large[index] < Math.min(size, 15) - 0.1);
        assert.deepEqual(shrunk, [], name);
      }
      const [small] = await at(golden["screen-code"], 100);
      const [doubled] = await at(golden["screen-code"], 200);
      assert.ok(Math.abs(doubled / small - 2) < 0.01, `${small} to ${doubled}`);
    });
  });
}

/** The lines beside the code, where its last one is the signature; of the copy only who signed it stands there. */
function isReadAs(text, rows) {
  const lines = rows.slice(0, -1).map(({ label, value }) => `${label}: ${value}`);
  if (lines.length === 0) return assert.match(text, /^HFC[1-3]:[0-9A-Z $%*+./:-]{200,}\n?$/);
  const read = text.trimEnd().split("\n");
  assert.deepEqual(read.slice(0, -1), lines);
  assert.match(read.at(-1), /^SIG [0-9A-Z $%*+./:-]{100,}$/);
}

/** What a scanner (zbar) reads from the picture of the whole screen. */
async function scanned(page) {
  const picture = await page.screenshot();
  return execFileSync("zbarimg", ["-q", "--raw", "-Sbinary", "-"], { input: picture, encoding: "utf8" });
}

/**
 * Runs in the page. Draws both figures, dimmed, shrinks each to four pixels a letter height, and compares the ink:
 * far more blur than a tired eye at arm's length has, so that what passes here is safe there.
 */
async function differenceOf(one, other, asked) {
  const FULL = 256;
  const BLURRED = 4;
  const family = asked ?? getComputedStyle(document.body).fontFamily;
  await document.fonts.load(`700 ${FULL}px ${family}`, "0123456789.");
  const [a, b] = [blurred(one), blurred(other)];
  const ink = a.reduce((sum, value, index) => sum + Math.max(value, b[index]), 0);
  return a.reduce((sum, value, index) => sum + Math.abs(value - b[index]), 0) / ink;

  function blurred(text) {
    let canvas = drawn(text);
    for (let height = FULL; height > BLURRED; height /= 2) canvas = halved(canvas);
    const { data } = canvas.getContext("2d").getImageData(0, 0, canvas.width, canvas.height);
    return Array.from({ length: data.length / 4 }, (_, index) => data[4 * index] - 17);
  }

  function drawn(text) {
    const canvas = sized(FULL * 3, FULL * 1.5);
    const pen = canvas.getContext("2d");
    pen.fillStyle = "#111";
    pen.fillRect(0, 0, canvas.width, canvas.height);
    pen.fillStyle = "#888";
    pen.font = `700 ${FULL}px ${family}`;
    pen.fillText(text, 32, FULL * 1.1);
    return canvas;
  }

  function halved(from) {
    const canvas = sized(from.width / 2, from.height / 2);
    canvas.getContext("2d").drawImage(from, 0, 0, canvas.width, canvas.height);
    return canvas;
  }

  function sized(width, height) {
    return Object.assign(document.createElement("canvas"), { width, height });
  }
}
