// Where the strip has come on the glass: a little behind what has arrived, so that a late batch is not seen.
import { HZ } from "./batch";

/** Kept in hand. */
const LEAD = (0.175 * HZ) | 0;
/** More than this in hand: the page was away, and goes on at the present. */
const MOST = 1 * HZ;
const PER_MS = HZ / 1000;

export class Playhead {
  /** Samples up to here belong on the glass. */
  at = 0;
  #waits = true;
  #last = 0;

  /** The next frame, at `nowMs`; `end` is one past the newest sample. */
  move(nowMs: number, begin: number, end: number): void {
    const passed = nowMs - this.#last;
    this.#last = nowMs;
    if (this.at < begin || this.at > end) this.#wait(begin);
    if (this.#waits && end - this.at < LEAD) return;
    if (this.#waits) this.#waits = false;
    else this.at += passed * PER_MS;
    if (this.at >= end) this.#wait(end);
    if (end - this.at > MOST) this.at = end - LEAD;
  }

  #wait(at: number): void {
    this.at = at;
    this.#waits = true;
  }
}
