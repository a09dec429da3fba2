import assert from "node:assert/strict";
import { test } from "node:test";
import { photographed, printed, readIn } from "./handing.mjs";
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
  await ward.app.find("#card .qr svg");
  const code = await person.look();
  const lines = printed(ward).split("\n");
  const shown = await linesOf(ward.app);
  assert.deepEqual(shown.slice(0, -1), lines.slice(0, -1), "the lines beside the code");
  assert.match(shown.at(-1), /^Signed by tablet: [0-9A-F ]{19}$/);
  assert.match(lines.at(-1), /^SIG [0-9A-Z $%*+./:-]+$/);
  const { file } = await photographed(ward, "code.png");
  for (const read of readIn(file)) assert.deepEqual(read.split("\n"), lines);
  assert.ok(lines.some((line) => line.startsWith("Capture threshold: 1.2 mA")), lines.join("\n"));
  assert.doesNotMatch(code.text, /Dr Example/, "the code holds no name");
});

/** The lines shown beside the code. */
function linesOf(app) {
  return app.script(`
    return [...document.querySelectorAll("#card dl > div, #card .row")].map((row) =>
      [...row.children].map((part) => part.innerText.trim()).join(": "));`);
}
