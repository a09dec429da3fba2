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
          {chart.steps.length > 0 ? <Steps line={chart.steps} /> : chart.set && <Level of="set" height={chart.set[0]} />}
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
      {chart.days && (
        <p class="days" aria-hidden="true">
          <span>{chart.days[0]}</span>
          <span>{chart.days[1]}</span>
        </p>
      )}
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

/** What was set: it stands until it is set anew. */
function Steps({ line }: { line: [number, number][] }) {
  const points = line.flatMap(([at, height], index) => {
    const before = line[index - 1];
    return before ? [`${at},${1 - before[1]}`, `${at},${1 - height}`] : [`${at},${1 - height}`];
  });
  return (
    <svg viewBox="0 0 1 1" preserveAspectRatio="none">
      <polyline class="steps" points={points.join(" ")} />
    </svg>
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
