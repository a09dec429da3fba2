// A code on one tablet's glass, its picture, and the other tablet that loads it.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { handIn } from "./desk.mjs";

export async function photographed({ app, folder }, name) {
  const file = join(folder, name);
  await app.screenshot(file);
  return { bytes: readFileSync(file), across: await across(app) };
}

/** Modules on each side, with the quiet zone. */
export function across(app) {
  return app.script("return document.querySelector('#card .qr svg')?.getAttribute('viewBox') ?? null;");
}

/** A scanner types wherever the focus is. */
export async function typed(app, text) {
  await app.find("#code");
  await app.keys(text);
}

export function handInPicture(app, bytes) {
  return handIn(app, "#handover-picture", bytes, { name: "code.png", type: "image/png" });
}

/** Types the three dials on the pad. */
export async function readDials(app, dials) {
  for (const [id, position] of Object.entries(dials)) {
    await app.press(`#${id}`);
    for (const digit of position) await app.click(`pad-${digit}`);
  }
}
