// Drives one window through WebKit's own driver: the real app, or any page in WebKit's own small browser.
//
//   const app  = await session({ binary, env: { HOLDFAST_DATA: folder } });
//   const page = await session({ url: "http://127.0.0.1:8080/replay.html" });
//   await app.click("stop");            // the button with data-key="stop"
//   await app.screenshot("card.png");
//   await app.close();
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { execFileSync } from "node:child_process";
import { createInterface } from "node:readline";
import { bornAt, descendantsNamed, descendantsRunning, freePort, start, stop, until, virtualDisplay } from "./processes.mjs";
import { command, ELEMENT, KEYS, pressing, typing } from "./protocol.mjs";

export { KEYS, until };

/**
 * Opens a window. Give `binary` (the app) or `url` (a page), not both.
 * @param {{binary?: string, args?: string[], url?: string, env?: Record<string, string>}} what
 */
export async function session({ binary, args = [], url, env = {} }) {
  const driver = await launch(binary ? { ...AUTOMATED, ...env } : { XDG_CONFIG_HOME: flatToolbar(), ...env });
  const browser = binary ? { binary, args } : { binary: miniBrowser(), args: ["--automation"] };
  const alwaysMatch = { "webkitgtk:browserOptions": browser };
  try {
    const opened = await command(driver.base, "POST", "/session", { capabilities: { alwaysMatch } });
    const window = new Window(driver, opened.sessionId, binary ?? miniBrowser());
    if (url) await window.go(url);
    return window;
  } catch (fault) {
    await stop(driver.process);
    throw fault;
  }
}

/** The app lets itself be driven only where it was started so. */
const AUTOMATED = { TAURI_WEBVIEW_AUTOMATION: "true" };

// The small browser's tool bar would keep the window wider than a phone.
const FLAT = "toolbar *, button, entry { min-width: 0; min-height: 0; padding: 0; margin: 0; border-width: 0; font-size: 1px; }";
let config;

function flatToolbar() {
  if (config) return config;
  config = mkdtempSync(join(tmpdir(), "holdfast-browser-"));
  mkdirSync(join(config, "gtk-3.0"));
  writeFileSync(join(config, "gtk-3.0/gtk.css"), FLAT);
  process.once("exit", () => rmSync(config, { recursive: true, force: true }));
  return config;
}

async function launch(env) {
  const port = await freePort();
  const DISPLAY = await virtualDisplay();
  const surroundings = { ...process.env, DISPLAY, NO_AT_BRIDGE: "1", GDK_BACKEND: "x11", ...env };
  const child = start("dbus-run-session", ["--", "WebKitWebDriver", `--port=${port}`], {
    env: surroundings,
    stdio: ["ignore", "ignore", "pipe"],
  });
  const said = [];
  createInterface({ input: child.stderr }).on("line", (line) => {
    said.push(line);
    if (process.env.DRIVER_LOG) console.error(line);
  });
  const base = `http://127.0.0.1:${port}`;
  await until("WebKitWebDriver to listen", () => command(base, "GET", "/status").then(() => true));
  return { base, process: child, said };
}

let browserPath;

function miniBrowser() {
  browserPath ??= execFileSync("dpkg", ["-L", "libwebkit2gtk-4.1-0"], { encoding: "utf8" })
    .split("\n")
    .find((line) => line.endsWith("/MiniBrowser"));
  if (!browserPath) throw new Error("WebKit's MiniBrowser is missing: install webkit2gtk-driver and libwebkit2gtk-4.1-0");
  return browserPath;
}

/** One open window. Elements are named by CSS selector, buttons by their `data-key`. */
class Window {
  #driver;
  #id;
  #binary;

  constructor(driver, id, binary) {
    this.#driver = driver;
    this.#id = id;
    this.#binary = binary;
  }

  #send(method, path, body) {
    return command(this.#driver.base, method, `/session/${this.#id}${path}`, body);
  }

  go(url) {
    return this.#send("POST", "/url", { url });
  }

  /** Waits for the first element that matches; resolves to its reference. */
  async find(selector, options) {
    const found = await until(selector, () => this.#first(selector), options);
    return found;
  }

  async #first(selector) {
    const all = await this.#send("POST", "/elements", { using: "css selector", value: selector });
    return all[0]?.[ELEMENT];
  }

  /** True when an element matches now. */
  async has(selector) {
    return (await this.#first(selector)) !== undefined;
  }

  /** Visible text of the first element that matches. */
  async text(selector) {
    return this.#send("GET", `/element/${await this.find(selector)}/text`);
  }

  /** Waits for the button with this key and presses it once. */
  async click(key, options) {
    await this.press(byKey(key), [], options);
  }

  /** Presses the element once, and once more after each gap. */
  async press(selector, gapsMs = [], options) {
    for (let tries = 0; ; tries += 1) {
      try {
        return await this.#pressOnce(selector, gapsMs, options);
      } catch (fault) {
        // The card was drawn anew between finding and pressing: nothing was pressed.
        if (tries === 3 || !/stale element/.test(fault.message)) throw fault;
      }
    }
  }

  async #pressOnce(selector, gapsMs, options) {
    const element = await this.find(selector, options);
    await this.script("arguments[0].scrollIntoView({ block: 'nearest' });", { [ELEMENT]: element });
    await this.#send("POST", "/actions", pressing(element, gapsMs));
  }

  /** Types with the keyboard alone: texts, or lists of keys held together. */
  keys(...entries) {
    return this.#send("POST", "/actions", typing(entries));
  }

  /** Runs a function body in the page; resolves to what it returns. */
  script(body, ...args) {
    return this.#send("POST", "/execute/sync", { script: body, args });
  }

  /** The same for a body that calls its last argument when it is done. */
  scriptAsync(body, ...args) {
    return this.#send("POST", "/execute/async", { script: body, args });
  }

  /** Writes a picture of the whole page's visible part. */
  async screenshot(path) {
    const picture = Buffer.from(await this.#send("GET", "/screenshot"), "base64");
    if (path) {
      mkdirSync(dirname(path), { recursive: true });
      writeFileSync(path, picture);
    }
    return picture;
  }

  /** Makes the page itself, without the window's own edges, this many CSS pixels. */
  async setSize(width, height) {
    let outer = { width, height };
    for (let round = 0; round < 4; round += 1) {
      await this.#send("POST", "/window/rect", { x: 0, y: 0, ...outer });
      const inner = await this.#settledSize();
      if (inner.width === width && inner.height === height) return;
      outer = { width: outer.width + width - inner.width, height: outer.height + height - inner.height };
    }
    throw new Error(`the window does not take ${width}×${height}`);
  }

  async #settledSize() {
    let before;
    return until("the window to settle", async () => {
      const now = await this.script("return { width: innerWidth, height: innerHeight };");
      const settled = before && before.width === now.width && before.height === now.height;
      before = now;
      return settled && now;
    });
  }

  /** Process ids of the app (or browser) behind this window. */
  pids() {
    return descendantsRunning(this.#driver.process.pid, this.#binary);
  }

  /** Process ids of the web processes, oldest first: the first draws the page, a second may be kept ready. */
  webPids() {
    return descendantsNamed(this.#driver.process.pid, "WebKitWebProcess").sort((a, b) => bornAt(a) - bornAt(b));
  }

  /** What the program wrote to its standard error so far, in lines. */
  said() {
    return this.#driver.said;
  }

  /** Ends the app at once, as a flat battery would, and clears up behind it. */
  async kill() {
    for (const pid of this.pids()) process.kill(pid, "SIGKILL");
    await until("the app to be gone", () => this.pids().length === 0);
    await stop(this.#driver.process);
  }

  /** Closes the window as a person would, then ends the driver. */
  async close() {
    try {
      await this.#send("DELETE", "");
    } finally {
      await stop(this.#driver.process);
    }
  }
}

/** CSS selector of the button with this key. */
export function byKey(key) {
  return `[data-key="${key}"]`;
}
