// The part of the W3C WebDriver protocol that the tests use, over plain HTTP.
import { request } from "node:http";

/** The key under which the standard names an element. */
export const ELEMENT = "element-6066-11e4-a52e-4f735466cecf";

/** An error the driver answered with. */
export class WebDriverFault extends Error {
  constructor(kind, message) {
    super(`${kind}: ${message}`);
    this.kind = kind;
  }
}

/** Sends one command; resolves to its `value`. */
export function command(base, method, path, body) {
  const text = method === "POST" ? JSON.stringify(body ?? {}) : undefined;
  const headers = text ? { "content-type": "application/json", "content-length": Buffer.byteLength(text) } : {};
  return new Promise((resolve, reject) => {
    const sent = request(`${base}${path}`, { method, headers, timeout: 30_000 }, (answer) => {
      collect(answer).then((raw) => resolve(valueOf(raw)), reject).catch(reject);
    });
    sent.once("timeout", () => sent.destroy(new Error(`no answer to ${method} ${path} in 30 s`)));
    sent.once("error", reject);
    sent.end(text);
  });
}

async function collect(answer) {
  const parts = [];
  for await (const part of answer) parts.push(part);
  return Buffer.concat(parts).toString("utf8");
}

function valueOf(raw) {
  const { value } = JSON.parse(raw);
  if (value?.error) throw new WebDriverFault(value.error, value.message);
  return value;
}

/** One mouse: moves to the element's middle, presses and releases once per entry of `gapsMs` plus one. */
export function pressing(element, gapsMs = []) {
  const press = [
    { type: "pointerDown", button: 0 },
    { type: "pointerUp", button: 0 },
  ];
  const actions = [{ type: "pointerMove", duration: 0, origin: { [ELEMENT]: element }, x: 0, y: 0 }, ...press];
  for (const gap of gapsMs) actions.push({ type: "pause", duration: gap }, ...press);
  return { actions: [{ type: "pointer", id: "mouse", parameters: { pointerType: "mouse" }, actions }] };
}

/** Key names of the standard's private range. */
export const KEYS = {
  Tab: "\uE004",
  Enter: "\uE007",
  Shift: "\uE008",
  Escape: "\uE00C",
  Space: " ",
  Backspace: "\uE003",
  ArrowLeft: "\uE012",
  ArrowUp: "\uE013",
  ArrowRight: "\uE014",
  ArrowDown: "\uE015",
};

/** One keyboard: each entry is a text typed key by key, or a list of keys held together. */
export function typing(entries) {
  const actions = entries.flatMap((entry) => (Array.isArray(entry) ? chord(entry) : [...entry].flatMap(stroke)));
  return { actions: [{ type: "key", id: "keyboard", actions }] };
}

function stroke(value) {
  return [
    { type: "keyDown", value },
    { type: "keyUp", value },
  ];
}

function chord(keys) {
  return [
    ...keys.map((value) => ({ type: "keyDown", value })),
    ...[...keys].reverse().map((value) => ({ type: "keyUp", value })),
  ];
}
