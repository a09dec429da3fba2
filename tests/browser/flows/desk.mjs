// What hands do at a tablet beside a check: taps a person's time apart, files handed in.
import { setTimeout as sleep } from "node:timers/promises";
import { pauseMs } from "./ward.mjs";

/** Taps once the button has stood as long as a person looks. */
export async function unhurried(app, key) {
  await app.find(`[data-key="${key}"]`);
  await sleep(pauseMs());
  await app.click(key);
}

/**
 * What the tablet's own file dialog does: it puts the chosen file into the field.
 * `padded` lengthens it with spaces to so many bytes, in the page.
 */
export async function handIn(app, selector, bytes, { name = "file", type = "", padded = 0 } = {}) {
  await app.find(selector);
  await app.script(
    `const [selector, base64, name, type, padded] = arguments;
     const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
     const padding = " ".repeat(Math.max(0, padded - bytes.length));
     const chosen = new DataTransfer();
     chosen.items.add(new File([bytes, padding], name, { type }));
     const field = document.querySelector(selector);
     field.files = chosen.files;
     field.dispatchEvent(new Event("change", { bubbles: true }));`,
    selector,
    bytes.toString("base64"),
    name,
    type,
    padded,
  );
}

/** Typed before the card comes, figures would be lost or half there. */
export async function typed(app, figures) {
  for (const [id, figure] of Object.entries(figures)) {
    await app.find(`#${id}`);
    await app.press(`#${id}`);
    await app.keys(figure);
  }
}
