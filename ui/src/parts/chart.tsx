import type { Chart as ChartOf } from "../contract";

/** One quantity over days, the set value as a line above or below it. */
export function Chart({ chart }: { chart: ChartOf<string> }) {
  const end = chart.line[chart.line.length - 1];
  return (
    <figure class="chart">
      <figcaption>{chart.title}</figcaption>
      <div class={chart.marks.length > 0 ? "drawing marked" : "drawing"} role="img" aria-label={chart.words}>
        <svg>
          {chart.marks.map(([height, label]) => (
            <Mark height={height} label={label} />
          ))}
          {chart.set && <SetLine height={chart.set[0]} label={chart.set[1]} />}
          <Course line={chart.line} />
          {chart.last && end && (
            <text class="last" x="100%" dx=".6em" y={fall(end[1])} dy=".35em" data-rank={0}>
              {chart.last}
            </text>
          )}
        </svg>
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

function Mark({ height, label }: { height: number; label: string }) {
  return (
    <>
      <line class="grid" x1="0" x2="100%" y1={fall(height)} y2={fall(height)} />
      <text class="mark-label" x="0" dx="-.6em" y={fall(height)} dy=".35em" data-rank={2}>
        {label}
      </text>
    </>
  );
}

function SetLine({ height, label }: { height: number; label: string }) {
  return (
    <>
      <line class="set" x1="0" x2="100%" y1={fall(height)} y2={fall(height)} />
      <text class="set" x="100%" dx=".6em" y={fall(height)} dy=".35em" data-rank={1}>
        {label}
      </text>
    </>
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
