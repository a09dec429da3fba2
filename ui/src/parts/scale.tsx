import type { Scale as ScaleOf, Tick, TickRole } from "../contract";

/** Height of the line in the drawing, in its own letter size. */
const AXIS = "2em";

/** Which label gives way where two would touch: low stays. */
const RANK: Record<TickRole, number> = { Present: 0, Set: 1, Threshold: 2, Missed: 4, Held: 5, Plain: 6 };
const END_RANK = 3;

/** Above this many positions, dots of the usual size would run into one line. */
const DENSE = 24;

/** The positions of one dial: tried ones filled, lost ones crossed, the present one ringed. */
export function Scale({ scale }: { scale: ScaleOf<string> }) {
  return (
    <div class={scale.ticks.length > DENSE ? "scale drawing dense" : "scale drawing"} role="img" aria-label={scale.words}>
      <svg>
        {scale.band && <Band from={scale.band[0]} to={scale.band[1]} />}
        <line class="axis" x1="0" x2="100%" y1={AXIS} y2={AXIS} />
        {scale.bracket && <Bracket from={scale.bracket[0]} to={scale.bracket[1]} />}
        <Positions ticks={scale.ticks} />
        {drawingOrder(scale.ticks).map((tick) => (
          <TickMark key={`${tick.at}-${tick.role}`} tick={tick} />
        ))}
      </svg>
      <div class="labels">
        {scale.ticks.map((tick, index) => (
          <TickLabel key={tick.at} tick={tick} end={index === 0 || index === scale.ticks.length - 1} />
        ))}
      </div>
      <span class="unit">{scale.unit}</span>
    </div>
  );
}

/** The marks that matter lie on top. */
function drawingOrder(ticks: Tick<string>[]): Tick<string>[] {
  return ticks.filter((tick) => tick.role !== "Plain").sort((a, b) => RANK[b.role] - RANK[a.role]);
}

/** Every position of the dial, as one path: a dial may have more than a hundred. */
function Positions({ ticks }: { ticks: Tick<string>[] }) {
  return (
    <svg y="1.55em" height=".9em" viewBox="0 0 1 1" preserveAspectRatio="none">
      <path class="positions" d={ticks.map((tick) => `M${tick.at} 0V1`).join("")} />
    </svg>
  );
}

function percent(at: number): string {
  return `${(at * 100).toFixed(2)}%`;
}

function Band({ from, to }: { from: number; to: number }) {
  return <rect class="band" x={percent(from)} width={percent(to - from)} y="1.3em" height="1.4em" />;
}

/** The threshold lies between two positions: a clamp over the line that closes as the search does. */
function Bracket({ from, to }: { from: number; to: number }) {
  const [left, right] = [percent(from), percent(to)];
  return (
    <g class="bracket">
      <line x1={left} x2={right} y1=".7em" y2=".7em" />
      <line x1={left} x2={left} y1=".7em" y2="1.35em" />
      <line x1={right} x2={right} y1=".7em" y2="1.35em" />
    </g>
  );
}

function TickMark({ tick }: { tick: Tick<string> }) {
  const x = percent(tick.at);
  switch (tick.role) {
    case "Plain":
      return null;
    case "Held":
      return <circle class="held" cx={x} cy={AXIS} />;
    case "Missed":
      return <Cross x={x} />;
    case "Present":
      return <Present x={x} />;
    case "Threshold":
      return <line class="threshold" x1={x} x2={x} y1="1em" y2="2.8em" />;
    case "Set":
      return <line class="set" x1={x} x2={x} y1=".7em" y2="2.9em" />;
    default:
      return unknownRole(tick.role);
  }
}

/** A drawing of its own size, its middle at `x` on the line. */
function Cross({ x }: { x: string }) {
  return (
    <svg class="missed" x={x} y={AXIS} overflow="visible">
      <svg x="-.5em" y="-.5em" width="1em" height="1em" viewBox="-10 -10 20 20" overflow="visible">
        <path class="under" d="M-8-8 8 8M8-8-8 8" />
        <path d="M-8-8 8 8M8-8-8 8" />
      </svg>
    </svg>
  );
}

function Present({ x }: { x: string }) {
  return (
    <svg class="present" x={x} y={AXIS} overflow="visible">
      <circle r=".68em" />
      <svg x="-.8em" y="-1.95em" width="1.6em" height="1.1em" viewBox="0 0 16 11">
        <path d="M8 11 0 0h16z" />
      </svg>
    </svg>
  );
}

function unknownRole(role: never): never {
  throw new Error(`a mark this page does not know: ${String(role)}`);
}

/** Plain text over the drawing: text inside an SVG costs the engine many times as much each time the card settles. */
function TickLabel({ tick, end }: { tick: Tick<string>; end: boolean }) {
  if (tick.label === null) return null;
  const rank = Math.min(RANK[tick.role], end ? END_RANK : RANK.Plain);
  return (
    <span class={`tick-label ${tick.role.toLowerCase()}`} style={{ left: percent(tick.at) }} data-rank={rank}>
      {tick.label}
    </span>
  );
}
