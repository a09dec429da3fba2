import { useLayoutEffect, useRef, useState } from "preact/hooks";

/** Blank modules that the standard (ISO/IEC 18004) asks for on each side. */
const QUIET = 4;

/** Black on white in every look, each module a whole number of the screen's own pixels. */
export function QrCode({ across: inside, modules }: { across: number; modules: string[] }) {
  const box = useRef<HTMLDivElement>(null);
  const across = inside + 2 * QUIET;
  const side = useSide(box, across);
  return (
    <div class="qr" ref={box}>
      <svg width={side} height={side} viewBox={`0 0 ${across} ${across}`} shape-rendering="crispEdges" aria-hidden="true">
        <rect width={across} height={across} fill="#fff" />
        <path d={dark(modules.map((row) => unpacked(row, inside)))} fill="#000" />
      </svg>
    </div>
  );
}

function useSide(box: { current: HTMLElement | null }, across: number): number {
  const [side, setSide] = useState(across);
  useLayoutEffect(() => {
    const element = box.current;
    if (!element) return undefined;
    const measure = () => setSide(wholeModules(Math.min(element.clientWidth, element.clientHeight), across));
    measure();
    const watching = new ResizeObserver(measure);
    watching.observe(element);
    return () => watching.disconnect();
  }, [across]);
  return side;
}

function wholeModules(room: number, across: number): number {
  const dots = Math.max(1, Math.floor((room * devicePixelRatio) / across));
  return (dots * across) / devicePixelRatio;
}

/** '1' is dark, from hexadecimal digits of four modules each. */
function unpacked(row: string, across: number): string {
  const bits = [...row].map((digit) => Number.parseInt(digit, 16).toString(2).padStart(4, "0"));
  return bits.join("").slice(0, across);
}

/** Each run of dark modules as one bar. */
function dark(modules: string[]): string {
  return modules.map((row, y) => [...row.matchAll(/1+/g)].map((run) => bar(run, y)).join("")).join("");
}

function bar(run: RegExpExecArray, y: number): string {
  const length = run[0].length;
  return `M${run.index + QUIET} ${y + QUIET}h${length}v1h-${length}z`;
}
