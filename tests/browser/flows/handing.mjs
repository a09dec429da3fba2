// A code on one tablet's glass, its picture, and the other tablet that loads it.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { until } from "../driver.mjs";

export async function photographed({ app, folder }, name) {
  const file = join(folder, name);
  await app.screenshot(file);
  return { bytes: readFileSync(file), across: await across(app) };
}

/** Modules on each side, with the quiet zone. */
export function across(app) {
  return app.script("return document.querySelector('#card .qr svg')?.getAttribute('viewBox') ?? null;");
}

/** Past the time in which a tap counts as the second half of a double tap. */
export async function unhurried(app, key) {
  await app.find(`[data-key="${key}"]`);
  await new Promise((done) => setTimeout(done, 150));
  await app.click(key);
}

/** A scanner types wherever the focus is. */
export async function typed(app, text) {
  await app.find("#code");
  await app.keys(text);
}

/** What the tablet's own file dialog does: it puts the chosen file into the field. */
export async function handIn(app, bytes) {
  await app.find("#handover-picture");
  await app.script(
    `const [selector, base64] = arguments;
     const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
     const chosen = new DataTransfer();
     chosen.items.add(new File([bytes], "code.png", { type: "image/png" }));
     const field = document.querySelector(selector);
     field.files = chosen.files;
     field.dispatchEvent(new Event("change", { bubbles: true }));`,
    "#handover-picture",
    bytes.toString("base64"),
  );
}

/** Waits until the card says it; resolves to all that it says. */
export function untilSaid(app, pattern) {
  const said = () => app.script("return document.getElementById('card').innerText;");
  return until(`${pattern}`, async () => pattern.test(await said()) && said());
}

/** Types the three dials on the pad. */
export async function readDials(app, dials) {
  for (const [id, position] of Object.entries(dials)) {
    await app.press(`#${id}`);
    for (const digit of position) await app.click(`pad-${digit}`);
  }
}
