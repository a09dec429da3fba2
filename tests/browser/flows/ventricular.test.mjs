import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { join } from "node:path";
import { test } from "node:test";
import { admit, tablet } from "./ward.mjs";

test("a whole ventricular check, from the first page to a code that a phone reads", async (t) => {
  const ward = await tablet(t, { size: [800, 1280] });
  const person = await admit(ward);

  const result = await person.carryOn((card) => card.keys.includes("code"));
  // Threshold 1.2 mA going up; highest position in 2 to 3 times it; 2.0 mV is below half of 5.5.
  assert.match(result.text, /Capture threshold\s+1\.2 mA/);
  assert.match(result.text, /Sensing threshold\s+5\.5 mV/);
  assert.deepEqual(person.dials, { output: "3.6", rate: "80", mv: "2.0" });

  await ward.app.click("code");
  const code = await person.changed(result);
  const lines = await linesOf(ward.app);
  assert.deepEqual(await decoded(ward), lines);
  assert.ok(lines.some((line) => line.startsWith("Capture threshold: 1.2 mA")), lines.join("\n"));
  assert.doesNotMatch(code.text, /Dr Example/, "the code holds no name");
});

/** The lines shown beside the code. */
function linesOf(app) {
  return app.script(`
    return [...document.querySelectorAll("#card dl > div, #card .row")].map((row) =>
      [...row.children].map((part) => part.innerText.trim()).join(": "));`);
}

/** What a decoder that knows nothing of the app reads in the picture of the screen. */
async function decoded({ app, folder }) {
  const picture = join(folder, "code.png");
  await app.screenshot(picture);
  return execFileSync("zbarimg", ["-q", "--raw", picture], { encoding: "utf8" }).trimEnd().split("\n");
}
