// The last half minute of the strip. What never came is a gap, never a line.
import { type Batch, HZ, type Mark, SAMPLES } from "./batch";

/** No sample is so low: what stands where nothing came. */
export const GAP = -32768;
const KEPT = 30 * HZ + 40 * SAMPLES;

export class Ring {
  stream: number | null = null;
  perMinute = 0;
  /** One past the newest sample, counted from the beginning of the strip. */
  end = 0;
  /** The oldest sample that is kept. */
  begin = 0;
  marks: Mark[] = [];
  #ecg = new Int16Array(KEPT).fill(GAP);
  #pulse = new Int16Array(KEPT).fill(GAP);

  take(batch: Batch): void {
    const from = batch.number * SAMPLES;
    if (batch.stream !== this.stream || from < this.end || from - this.end > KEPT) this.#begin(batch.stream, from);
    for (let at = this.end; at < from; at += 1) this.#put(at, GAP, GAP);
    batch.ecg.forEach((ecg, at) => this.#put(from + at, ecg, batch.pulse[at] ?? GAP));
    if (batch.apart) this.#put(from, GAP, GAP);
    this.end = from + SAMPLES;
    this.begin = Math.max(this.begin, this.end - KEPT);
    this.perMinute = batch.perMinute;
    this.marks = [...this.marks.filter((mark) => mark.at >= this.begin), ...batch.marks];
  }

  ecg(at: number): number {
    return at < this.begin || at >= this.end ? GAP : (this.#ecg[at % KEPT] ?? GAP);
  }

  pulse(at: number): number {
    return at < this.begin || at >= this.end ? GAP : (this.#pulse[at % KEPT] ?? GAP);
  }

  /** As it stands now, whatever comes later. */
  still(): Ring {
    const copy = new Ring();
    Object.assign(copy, { stream: this.stream, perMinute: this.perMinute, end: this.end, begin: this.begin, marks: this.marks });
    copy.#ecg.set(this.#ecg);
    copy.#pulse.set(this.#pulse);
    return copy;
  }

  #begin(stream: number, from: number): void {
    this.stream = stream;
    this.begin = from;
    this.end = from;
    this.marks = [];
  }

  #put(at: number, ecg: number, pulse: number): void {
    this.#ecg[at % KEPT] = ecg;
    this.#pulse[at % KEPT] = pulse;
  }
}

/** What the bridge fills and the monitor draws. */
export const ring = new Ring();
