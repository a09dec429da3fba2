// When a button was tapped, on the page's own clock.
import { Stamps } from "./stamps";

const ofFingers = new Stamps();
const ofKeys = new Stamps();

addEventListener("pointerdown", (down) => ofFingers.madeAt(down.timeStamp, performance.now()), { capture: true, passive: true });

/** A click, ms of `performance.now()`. Those of keys count nothing in `detail`. */
export function madeAt(click: MouseEvent): number {
  return (click.detail > 0 ? ofFingers : ofKeys).madeAt(click.timeStamp, performance.now());
}
