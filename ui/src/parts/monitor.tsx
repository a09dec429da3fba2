// The monitor of a simulated patient: the strip on its paper, frozen and looked back over by button or key.
import { useEffect, useLayoutEffect, useRef, useState } from "preact/hooks";
import type { Monitor as MonitorOf } from "../contract";
import { useFocusKept } from "../focus";
import { HZ } from "../strip/batch";
import { Button } from "./button";
import { drawGrid, type Paper, paperOf } from "../strip/paper";
import { type Inks, Pen } from "../strip/pen";
import { Playhead } from "../strip/playhead";
import { type Ring, ring } from "../strip/ring";

const STEP = HZ;

export function Monitor({ monitor, light }: { monitor: MonitorOf<string>; light: string }) {
  const [frozen, freeze] = useState<Ring | null>(null);
  const [back, setBack] = useState(0);
  useFocusKept();
  const still = monitor.kept || frozen !== null;
  const look = (by: number) => setBack((now) => Math.max(0, Math.min(now + by, lookBackMost(frozen ?? ring))));
  const release = () => {
    freeze(null);
    setBack(0);
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (still && event.key === "ArrowLeft") look(STEP);
    if (still && event.key === "ArrowRight") look(-STEP);
  };
  return (
    <section class={still ? "monitor still" : "monitor"} tabIndex={-1} onKeyDown={onKeyDown}>
      <div class="screen">
        <Glass monitor={monitor} light={light} frozen={frozen} back={back} />
        <p class="monitor-says">
          {monitor.scale} · {monitor.pulse} <Pulse />
        </p>
      </div>
      <div class="monitor-keys">
        {still && <Key name="earlier" label={monitor.earlier} press={() => look(STEP)} arrow="M16 4 6 12l10 8z" />}
        {still && <Key name="later" label={monitor.later} press={() => look(-STEP)} arrow="M8 4 18 12 8 20z" />}
        {!still && <Key name="freeze" label={monitor.freeze} press={() => freeze(ring.still())} />}
        {still && !monitor.kept && <Key name="run" label={monitor.run} press={release} />}
        {!still && monitor.pause && <Button act={monitor.pause} place="monitor-key" always />}
      </div>
    </section>
  );
}

interface KeyProps {
  name: string;
  label: string;
  press(): void;
  /** Drawn instead of the label. */
  arrow?: string;
}

function Key({ name, label, press, arrow }: KeyProps) {
  return (
    <button key={name} type="button" class={`monitor-key ${name}`} data-key={`strip-${name}`} aria-label={label} onClick={press}>
      {arrow ? <Arrow path={arrow} /> : label}
    </button>
  );
}

function Arrow({ path }: { path: string }) {
  return (
    <svg class="arrow" viewBox="0 0 24 24" aria-hidden="true">
      <path d={path} />
    </svg>
  );
}

/** Beats a minute, as the stream says; not spoken by itself. */
function Pulse() {
  const [shown, show] = useState("--");
  useEffect(() => {
    const reading = setInterval(() => show(ring.perMinute > 0 ? String(ring.perMinute) : "--"), 1000);
    return () => clearInterval(reading);
  }, []);
  return <b>{shown}</b>;
}

function lookBackMost(of: Ring): number {
  return Math.max(0, of.end - of.begin - STEP);
}

interface GlassProps {
  monitor: MonitorOf<string>;
  light: string;
  frozen: Ring | null;
  back: number;
}

function Glass({ monitor, light, frozen, back }: GlassProps) {
  const box = useRef<HTMLDivElement>(null);
  const grid = useRef<HTMLCanvasElement>(null);
  const trace = useRef<HTMLCanvasElement>(null);
  const size = useSize(box);
  useLayoutEffect(() => {
    if (!grid.current || !trace.current || size.width === 0) return undefined;
    const paper = laid(size, [grid.current, trace.current]);
    drawGrid(grid.current, paper, ink("--paper-thin"), ink("--paper-strong"));
    const pen = new Pen(trace.current, paper, inks());
    const mine = (of: Ring) => of.stream === monitor.stream;
    if (frozen) {
      pen.window(frozen, frozen.end - back);
      return undefined;
    }
    return monitor.kept ? keepDrawn(pen, mine, back) : run(pen, mine);
  }, [size.width, size.height, light, monitor.stream, monitor.kept, frozen, back]);
  return (
    <div class="glass" ref={box} role="img" aria-label={monitor.words}>
      <canvas class="paper" ref={grid} />
      <canvas class="trace" ref={trace} />
    </div>
  );
}

/** Draws each frame what has come on; ends when asked to. */
function run(pen: Pen, mine: (of: Ring) => boolean): () => void {
  const playhead = new Playhead();
  let drawn: number | null = null;
  let asked = requestAnimationFrame(frame);
  function frame(now: number): void {
    asked = requestAnimationFrame(frame);
    if (!mine(ring)) return;
    playhead.move(now, ring.begin, ring.end);
    const until = Math.floor(playhead.at);
    if (drawn === null || until < drawn || until - drawn > pen.breadth) drawn = Math.max(ring.begin, until - pen.breadth + HZ);
    if (until > drawn) pen.sweep(ring, drawn, until);
    drawn = Math.max(drawn, until);
  }
  return () => cancelAnimationFrame(asked);
}

/** A moment that is looked at again comes in one piece after the card: drawn whenever more of it has come. */
function keepDrawn(pen: Pen, mine: (of: Ring) => boolean, back: number): () => void {
  let drawn = -1;
  let asked = requestAnimationFrame(frame);
  function frame(): void {
    asked = requestAnimationFrame(frame);
    if (!mine(ring) || ring.end === drawn) return;
    drawn = ring.end;
    pen.window(ring, ring.end - back);
  }
  return () => cancelAnimationFrame(asked);
}

interface Size {
  width: number;
  height: number;
}

function useSize(box: { current: HTMLElement | null }): Size {
  const [size, setSize] = useState<Size>({ width: 0, height: 0 });
  useLayoutEffect(() => {
    const element = box.current;
    if (!element) return undefined;
    const measure = () => setSize({ width: element.clientWidth, height: element.clientHeight });
    measure();
    const watching = new ResizeObserver(measure);
    watching.observe(element);
    return () => watching.disconnect();
  }, []);
  return size;
}

/** Both canvases in whole pixels of the screen. */
function laid({ width, height }: Size, canvases: HTMLCanvasElement[]): Paper {
  const ratio = devicePixelRatio;
  const paper = paperOf(Math.round(width * ratio), Math.round(height * ratio), ratio);
  for (const canvas of canvases) {
    canvas.width = paper.width;
    canvas.height = paper.height;
    canvas.dataset["mm"] = String(paper.mm);
    canvas.dataset["baseline"] = String(paper.baseline);
  }
  return paper;
}

function ink(name: string): string {
  return getComputedStyle(document.documentElement).getPropertyValue(name).trim();
}

function inks(): Inks {
  return { ecg: ink("--ink"), pulse: ink("--quiet"), mark: ink("--ink"), lost: ink("--alarm"), letters: getComputedStyle(document.body).fontFamily };
}
