// The screen itself, looked at and touched beside the driver.
import { execFileSync } from "node:child_process";
import { byKey } from "../driver.mjs";
import { virtualDisplay } from "../processes.mjs";

/** It waits a tenth of a second after each by itself. */
const CLICK = ["click", "--delay", "0", "1"];

/** The screen of this process. The window stands in its corner: its points are the page's. */
export async function touched() {
  const env = { ...process.env, DISPLAY: await virtualDisplay() };
  const run = (program, ...args) => execFileSync(program, args, { env });
  const picture = ({ x, y, width, height }) =>
    run("import", "-window", "root", "-crop", `${width}x${height}+${x}+${y}`, "-depth", "8", "gray:-");
  let last;
  return {
    picture,
    /** Taps once, and once more after each gap: by the screen's clock, however busy the page is. */
    tap({ x, y }, gapsMs = []) {
      const more = gapsMs.flatMap((gap) => ["sleep", gap / 1000, ...CLICK]);
      run("xdotool", "mousemove", x, y, ...CLICK, ...more);
    },
    /** The picture, once two in a row are the same. */
    still(box) {
      const [before, now] = [last, picture(box)];
      last = now;
      return before?.equals(now) && now;
    },
  };
}

/** Where a finger taps the button with this key. */
export async function middle(app, key) {
  const { x, y, width, height } = await boxOf(app, byKey(key));
  return { x: Math.round(x + width / 2), y: Math.round(y + height / 2) };
}

/** In whole points, brought on the glass. */
export async function boxOf(app, selector) {
  await app.find(selector);
  return app.script(
    `const found = document.querySelector(arguments[0]);
     found.scrollIntoView({ block: "nearest" });
     const box = found.getBoundingClientRect();
     return Object.fromEntries(["x", "y", "width", "height"].map((name) => [name, Math.round(box[name])]));`,
    selector,
  );
}
