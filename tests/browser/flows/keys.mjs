// Somebody without a pointer: Tab goes to what is wanted, Enter takes it, letters and digits go where the focus is.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { byKey, KEYS, until } from "../driver.mjs";
import { virtualDisplay } from "../processes.mjs";
import { focusOnCard, watchFocus } from "./keys-page.mjs";

/** More stops than any card has: whoever Tabs on beyond them goes round in a circle. */
const MOST_STOPS = 60;
/** WCAG 2.2, 1.4.11. */
const LEAST_CONTRAST = 3;

/** Takes the pointer away from a window: what was pressed is reached and taken by keys alone. */
export async function withoutPointer(app) {
  await inFront(app);
  app.click = (key) => app.press(byKey(key));
  app.press = async (selector) => {
    await app.find(selector);
    const reached = await tabTo(app, selector);
    assertSeen(reached);
    if (!reached.types) await keys(app, [KEYS.Enter]);
  };
}

/** Somebody at the bedside who has no pointer. */
export async function keyboardOnly(person) {
  await withoutPointer(person.app);
  person.fill = (fields) => {
    const { dials, heart, name } = person;
    const said = { ...dials, slowest: `${heart.own}`, fastest: `${heart.own}` };
    return typeIn(person.app, Object.fromEntries(fields.map((id) => [id, said[id] ?? name])));
  };
  return person;
}

/** Digits and words are typed into the fields themselves. */
export async function typeIn(app, texts) {
  for (const [id, text] of Object.entries(texts)) {
    await app.press(`#${id}`);
    await keys(app, text);
  }
}

/** Presses keys; the focus may never fall out of the card, whatever they did. */
export async function keys(app, ...entries) {
  await app.keys(...entries);
  await focus(app);
}

/** Where the focus is, and how far from what is wanted. */
export async function focus(app, wanted = "button") {
  const now = await app.script(`return (${focusOnCard})(arguments[0]);`, wanted);
  assert.deepEqual(now.fallen, [], "keys after which the focus was on nothing");
  assert.ok(now.inside, `the focus fell to ${now.on}`);
  return now;
}

/** Whoever looks for the focus finds it. */
export function assertSeen({ on, onGlass, contrast }) {
  assert.ok(onGlass, `${on} has the focus and is not on the glass`);
  assert.ok(contrast >= LEAST_CONTRAST, `the focus on ${on} has contrast ${contrast.toFixed(1)}`);
}

async function tabTo(app, selector) {
  for (let pressed = 0; pressed <= MOST_STOPS; ) {
    const now = await focus(app, selector);
    if (now.there) return now;
    const stops = Math.max(1, now.stops);
    await app.keys(...Array(stops).fill([KEYS.Tab]));
    pressed += stops;
  }
  throw new Error(`the keyboard does not reach ${selector} in ${MOST_STOPS} stops`);
}

/** There is no window manager here: without this the page would not show its focus. */
async function inFront(app) {
  const env = { ...process.env, DISPLAY: await virtualDisplay() };
  const xdotool = (...args) => execFileSync("xdotool", args, { env, encoding: "utf8" }).trim();
  xdotool("windowfocus", "--sync", xdotool("search", "--onlyvisible", "--pid", String(app.pids()[0])));
  await until("the window to have the focus", () => app.script("return document.hasFocus();"));
  await app.script(`(${watchFocus})();`);
}
