// The paper the strip runs on: 25 mm for a second, 10 mm for a millivolt, in whole pixels of the screen.

export interface Paper {
  /** All in pixels of the screen. */
  width: number;
  height: number;
  mm: number;
  /** Where 0 mV lies. */
  baseline: number;
  /** Where the pulse trace rests at 0 mmHg, and its height for 1 mmHg; 0 where it has no room. */
  pulseFloor: number;
  perMmhg: number;
  /** Where the marks stand, and the size of their letters. */
  marksAt: number;
  letter: number;
}

export const MM_PER_S = 25;
export const MM_PER_MV = 10;
/** Of the paper above and below 0 mV that a spike and a paced beat need. */
const ABOVE_MM = 25;
const BELOW_MM = 14;
const PULSE_MM = 10;
/** A pulse trace has no paper: its floor and its top, mmHg. */
const LEAST_MMHG = 20;
const MOST_MMHG = 150;
const LETTER_PX = 15;
/** So much time is seen at once where the millimetre can still give way. */
const LEAST_S = 5;

/** The largest millimetre of whole pixels with which all of it fits. Where room is short the pulse trace gives way
    first, then the top of the spikes. */
export function paperOf(width: number, height: number, ratio: number): Paper {
  const letter = LETTER_PX * ratio;
  const lane = 2 * letter;
  const least = Math.round(2 * ratio);
  const high = Math.floor((height - lane) / (ABOVE_MM + BELOW_MM + PULSE_MM));
  const fits = Math.min(high, Math.max(least, Math.floor(width / (LEAST_S * MM_PER_S))));
  const mm = Math.max(least, Math.min(fits, Math.round(6 * ratio)));
  const pulseMm = fits >= least ? PULSE_MM : 0;
  const spare = Math.max(0, height - lane - (ABOVE_MM + BELOW_MM + pulseMm) * mm);
  const pulseBottom = height - lane;
  const perMmhg = (pulseMm * mm) / (MOST_MMHG - LEAST_MMHG);
  const baseline = Math.round(pulseBottom - (pulseMm + BELOW_MM) * mm - spare / 2);
  return { width, height, mm, baseline, pulseFloor: pulseBottom + LEAST_MMHG * perMmhg, perMmhg, marksAt: height - lane / 2, letter };
}

export function pxPerSample(paper: Paper, hz: number): number {
  return (MM_PER_S * paper.mm) / hz;
}

export function yOfEcg(paper: Paper, uv: number): number {
  return paper.baseline - (uv / 1000) * MM_PER_MV * paper.mm;
}

export function yOfPulse(paper: Paper, mmhg: number): number {
  return paper.pulseFloor - mmhg * paper.perMmhg;
}

/** Without a graphics card the engine draws it a third faster so. */
export const DRAWN_IN_MEMORY: CanvasRenderingContext2DSettings = { willReadFrequently: true };

/** Thin lines closer than this run into one. */
const LEAST_THIN = 3;

/** Thin lines each millimetre, stronger ones each fifth: 0.2 s and 0.5 mV. */
export function drawGrid(canvas: HTMLCanvasElement, paper: Paper, thin: string, strong: string): void {
  const pen = canvas.getContext("2d", DRAWN_IN_MEMORY);
  if (!pen) return;
  pen.clearRect(0, 0, paper.width, paper.height);
  const floor = paper.marksAt - paper.letter;
  const rows = Math.ceil(paper.baseline / paper.mm);
  const dense = paper.mm < LEAST_THIN;
  for (let across = 0; across * paper.mm < paper.width; across += dense ? 5 : 1) {
    pen.fillStyle = across % 5 === 0 ? strong : thin;
    pen.fillRect(across * paper.mm, 0, 1, floor);
  }
  for (let row = -rows; paper.baseline + row * paper.mm < floor; row += 1) {
    if (dense && row % 5 !== 0) continue;
    pen.fillStyle = row % 5 === 0 ? strong : thin;
    pen.fillRect(0, paper.baseline + row * paper.mm, paper.width, 1);
  }
}
