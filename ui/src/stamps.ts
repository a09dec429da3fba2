// When events were made, by their time stamps.

/** So many events are looked back at: a clock that was set meanwhile is forgotten. */
const KEPT = 16;

/**
 * Of events of one kind. Their time stamps may count from another instant than `performance.now()`: in WebKitGTK those
 * of a mouse or a finger run a quarter of a second ahead, those of a driver do not. No event is handled before it was
 * made, so the least delay of the last ones counts as none.
 */
export class Stamps {
  #delays: number[] = [];

  /** Both in ms; what comes back, too. */
  madeAt(stamp: number, handled: number): number {
    const delay = handled - stamp;
    this.#delays = [...this.#delays, delay].slice(-KEPT);
    return handled - (delay - Math.min(...this.#delays));
  }
}
