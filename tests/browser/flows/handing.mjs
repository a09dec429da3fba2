// A code on one tablet's glass, its picture, and the other tablet that loads it.
import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { KEYS, until } from "../driver.mjs";
import { handIn } from "./desk.mjs";
import { TERMINAL } from "./ward.mjs";

/** Two decoders of different origin, neither of which knows the app. */
const READERS = [["zbarimg", "-q", "--raw"], ["ZXingReader", "-bytes"]];

/** What each of them reads in a picture file. A reader that finds no code makes it throw. */
export function readIn(picture) {
  return READERS.map(([reader, ...args]) => execFileSync(reader, [...args, picture], { encoding: "utf8" }).trimEnd());
}

/** The lines of the code that the app has shown, as the terminal reads them from the same record. */
export function printed({ folder }) {
  return execFileSync(TERMINAL, ["code", folder], { encoding: "utf8" }).trimEnd();
}

/** How the two faces of a code begin: lines for any phone, the signed copy for a tablet. */
export const [LINES, COPY] = ["HOLDFAST ", "HFC1:"];

/**
 * A picture of the screen in which each reader reads a code that begins so. A picture can still hold what the glass
 * showed before the page drew this: another is taken then.
 */
export async function photographed({ app, folder }, name, begins = LINES) {
  const file = join(folder, name);
  await app.find("#card .qr svg");
  await until(`a picture of a code that begins with ${begins}`, async () => {
    await app.screenshot(file);
    return readIn(file).every((read) => read.startsWith(begins));
  });
  return { file, bytes: readFileSync(file) };
}

/** A scanner types wherever the focus is, and Enter for the end of a line. */
export async function typed(app, text) {
  await app.find("#code");
  await app.keys(...text.split(/(\n)/).map((part) => (part === "\n" ? [KEYS.Enter] : part)));
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

/**
 * Gives the page a camera: a canvas as its stream, empty until something is held before it. Resolves to what stands
 * before it and what the page does with it.
 */
export async function givenCamera(app, size) {
  await app.script(
    `const lens = document.createElement("canvas");
    [lens.width, lens.height] = arguments[0];
    const pen = lens.getContext("2d");
    window.camera = { taken: 0, stream: lens.captureStream(10), before: null };
    setInterval(() => {
      pen.fillStyle = "#ccc";
      pen.fillRect(0, 0, lens.width, lens.height);
      if (camera.before) pen.drawImage(camera.before, 0, 0);
    }, 50);
    const toBlob = HTMLCanvasElement.prototype.toBlob;
    HTMLCanvasElement.prototype.toBlob = function (...args) {
      camera.taken += 1;
      return toBlob.apply(this, args);
    };
    MediaDevices.prototype.getUserMedia = async () => camera.stream;`,
    size,
  );
  return {
    /** How many pictures the page took of it. */
    taken: () => app.script("return camera.taken;"),
    runs: () => app.script("return camera.stream.getTracks().some((track) => track.readyState === 'live');"),
    hold: (picture) =>
      app.scriptAsync(
        `const [base64, done] = arguments;
         const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
         createImageBitmap(new Blob([bytes], { type: "image/png" })).then((held) => {
           camera.before = held;
           done(null);
         }, (fault) => done(String(fault)));`,
        picture.toString("base64"),
      ),
  };
}
