import type { Chart as ChartOf } from "../contract";

/** One quantity over days, the set value as a line above or below it. */
export function Chart({ chart }: { chart: ChartOf<string> }) {
  const end = chart.line[chart.line.length - 1];
  return (
    <figure class="chart">
      <figcaption>{chart.title}</figcaption>
      <div class={chart.marks.length > 0 ? "drawing marked" : "drawing"} role="img" aria-label={chart.words}>
        <svg>
          {chart.marks.map(([height]) => (
            <Level of="grid" height={height} />
          ))}
          {chart.set && <Level of="set" height={chart.set[0]} />}
          <Course line={chart.line} />
        </svg>
        <div class="labels">
          {chart.marks.map(([height, label]) => (
            <Label of="mark-label" height={height} label={label} rank={2} />
          ))}
          {chart.set && <Label of="set" height={chart.set[0]} label={chart.set[1]} rank={1} />}
          {chart.last && end && <Label of="last" height={end[1]} label={chart.last} rank={0} />}
        </div>
      </div>
    </figure>
  );
}

function along(at: number): string {
  return `${(at * 100).toFixed(2)}%`;
}

/** Heights are counted upward, the drawing downward. */
function fall(height: number): string {
  return along(1 - height);
}

function Level({ of, height }: { of: string; height: number }) {
  return <line class={of} x1="0" x2="100%" y1={fall(height)} y2={fall(height)} />;
}

function Label({ of, height, label, rank }: { of: string; height: number; label: string; rank: number }) {
  return (
    <span class={of} style={{ top: fall(height) }} data-rank={rank}>
      {label}
    </span>
  );
}

function Course({ line }: { line: [number, number][] }) {
  const points = line.map(([at, height]) => `${at},${1 - height}`).join(" ");
  return (
    <g class="course">
      <svg viewBox="0 0 1 1" preserveAspectRatio="none">
        <polyline points={points} />
      </svg>
      {line.map(([at, height], index) => (
        <circle cx={along(at)} cy={fall(height)} r={index === line.length - 1 ? ".36em" : ".25em"} />
      ))}
    </g>
  );
}
