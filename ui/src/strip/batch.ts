// One twentieth of a second of the strip, as it comes over the bridge: little-endian, numbered, with marks.

export const SAMPLES = 25;
export const HZ = 500;
const HEAD = 12;

export interface Mark {
  /** Counted in samples from the beginning of the strip. */
  at: number;
  letters: string;
  pace: boolean;
  /** A spike that made no beat. */
  lost: boolean;
}

export interface Batch {
  stream: number;
  number: number;
  perMinute: number;
  /** Nothing joins it to the batch before. */
  apart: boolean;
  ecg: number[];
  pulse: number[];
  marks: Mark[];
}

const LETTERS = ["AP", "AS", "AR", "VP", "VS", "VR"];
const LOST = 0x80;

export function batchOf(bytes: ArrayBuffer): Batch {
  const view = new DataView(bytes);
  const number = view.getUint32(4, true);
  const samples = (from: number) => Array.from({ length: SAMPLES }, (_, at) => view.getInt16(from + 2 * at, true));
  const marks = Array.from({ length: view.getUint8(11) }, (_, at) => markOf(view, HEAD + 4 * SAMPLES + 2 * at, number));
  return {
    stream: view.getUint32(0, true),
    number,
    perMinute: view.getUint16(8, true),
    apart: (view.getUint8(10) & 1) === 1,
    ecg: samples(HEAD),
    pulse: samples(HEAD + 2 * SAMPLES),
    marks,
  };
}

function markOf(view: DataView, at: number, number: number): Mark {
  const kind = view.getUint8(at + 1);
  const letters = LETTERS[kind & ~LOST];
  if (letters === undefined) throw new Error(`a mark this page does not know: ${kind}`);
  return { at: number * SAMPLES + view.getUint8(at), letters, pace: letters.endsWith("P"), lost: (kind & LOST) !== 0 };
}
