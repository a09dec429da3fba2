// Draws the strip: running, only what is new with a gap before it; still, a whole window at once.
import { HZ, type Mark } from "./batch";
import { DRAWN_IN_MEMORY, type Paper, pxPerSample, yOfEcg, yOfPulse } from "./paper";
import { GAP, type Ring } from "./ring";

export interface Inks {
  ecg: string;
  pulse: string;
  mark: string;
  lost: string;
  /** The family of the marks' letters. */
  letters: string;
}

/** Free ground ahead of what is newest, in letters of a mark: half a mark reaches into it. */
const AHEAD_LETTERS = 1.6;

export class Pen {
  #pen: CanvasRenderingContext2D;
  #paper: Paper;
  #inks: Inks;

  constructor(canvas: HTMLCanvasElement, paper: Paper, inks: Inks) {
    const pen = canvas.getContext("2d", DRAWN_IN_MEMORY);
    if (!pen) throw new Error("this page cannot draw a strip");
    this.#pen = pen;
    this.#paper = paper;
    this.#inks = inks;
    pen.lineJoin = "round";
    pen.textAlign = "center";
    pen.textBaseline = "middle";
  }

  /** Samples of one breadth of the paper. */
  get breadth(): number {
    return Math.floor(this.#paper.width / pxPerSample(this.#paper, HZ));
  }

  /** Draws the samples from `from` to `until` where they fall on the running paper. */
  sweep(ring: Ring, from: number, until: number): void {
    const breadth = this.breadth;
    for (let part = from; part < until; ) {
      const turn = Math.floor(part / breadth);
      const end = Math.min(until, (turn + 1) * breadth);
      const left = (at: number) => (at - turn * breadth) * pxPerSample(this.#paper, HZ);
      this.#clear(left(part), left(end));
      this.#lines(ring, part, end, left, part > turn * breadth);
      part = end;
    }
  }

  /** One window whose right end is `until`. */
  window(ring: Ring, until: number): void {
    const { width, height } = this.#paper;
    const from = until - this.breadth;
    this.#pen.clearRect(0, 0, width, height);
    this.#lines(ring, from, until, (at) => (at - from) * pxPerSample(this.#paper, HZ), false);
  }

  /** What lies up to the old gap is clear already. In whole pixels: half of one would leave a shadow of the old trace. */
  #clear(from: number, until: number): void {
    const ahead = AHEAD_LETTERS * this.#paper.letter;
    const start = from === 0 ? 0 : Math.floor(from + ahead);
    const end = Math.ceil(until + ahead);
    this.#pen.clearRect(start, 0, end - start, this.#paper.height);
    const beyond = end - this.#paper.width;
    if (beyond > 0) this.#pen.clearRect(0, 0, beyond, this.#paper.height);
  }

  #lines(ring: Ring, from: number, until: number, left: (at: number) => number, joined: boolean): void {
    const { mm } = this.#paper;
    const first = joined ? from - 1 : from;
    if (this.#paper.perMmhg > 0) this.#trace(first, until, left, (at) => ring.pulse(at), (mmhg) => yOfPulse(this.#paper, mmhg), this.#inks.pulse, 0.4 * mm);
    this.#trace(first, until, left, (at) => ring.ecg(at), (uv) => yOfEcg(this.#paper, uv), this.#inks.ecg, 0.5 * mm);
    for (const mark of ring.marks) if (mark.at >= from && mark.at < until) this.#mark(mark, left(mark.at));
  }

  #trace(
    from: number,
    until: number,
    left: (at: number) => number,
    value: (at: number) => number,
    y: (value: number) => number,
    ink: string,
    thick: number,
  ): void {
    const pen = this.#pen;
    pen.strokeStyle = ink;
    pen.lineWidth = thick;
    pen.beginPath();
    let down = false;
    for (let at = from; at < until; at += 1) {
      const one = value(at);
      if (one === GAP) down = false;
      else if (down) pen.lineTo(left(at), y(one));
      else pen.moveTo(left(at), y(one));
      if (one !== GAP) down = true;
    }
    pen.stroke();
  }

  /** Pacing: a bar; sensing: a ring; a spike without a beat: a cross. Letters with each. */
  #mark(mark: Mark, x: number): void {
    const { marksAt, letter } = this.#paper;
    const pen = this.#pen;
    const ink = mark.lost ? this.#inks.lost : this.#inks.mark;
    const sign = marksAt - 0.55 * letter;
    pen.strokeStyle = ink;
    pen.fillStyle = ink;
    pen.lineWidth = letter / 7;
    pen.beginPath();
    if (mark.lost) cross(pen, x, sign, letter / 3);
    else if (mark.pace) bar(pen, x, sign, letter / 3);
    else pen.arc(x, sign, letter / 4, 0, 2 * Math.PI);
    pen.stroke();
    pen.font = `700 ${letter}px ${this.#inks.letters}`;
    pen.fillText(mark.letters, x, marksAt + 0.45 * letter);
  }
}

function cross(pen: CanvasRenderingContext2D, x: number, y: number, half: number): void {
  pen.moveTo(x - half, y - half);
  pen.lineTo(x + half, y + half);
  pen.moveTo(x + half, y - half);
  pen.lineTo(x - half, y + half);
}

function bar(pen: CanvasRenderingContext2D, x: number, y: number, half: number): void {
  pen.moveTo(x, y - half);
  pen.lineTo(x, y + half);
}
