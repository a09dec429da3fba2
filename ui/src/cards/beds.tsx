import type { BedRow, Beds } from "../contract";
import { Chart } from "../parts/chart";
import { Figures } from "../parts/figures";
import { Sign } from "../parts/sign";
import { useTap } from "../tap";
import type { Faces } from "./faces";

/** The first screen: one row a wire, what needs a person first. */
export function beds(shape: Beds<string>): Faces {
  if (shape.rows.length === 0) return { show: <p class="instruction">{shape.empty}</p> };
  return {
    show: (
      <ul class="beds">
        {shape.rows.map((row) => (
          <Bed key={row.open.key} row={row} />
        ))}
      </ul>
    ),
  };
}

function Bed({ row }: { row: BedRow<string> }) {
  return (
    <li class={row.urgent ? "bed urgent" : "bed"}>
      <div class="bed-head">
        <div>
          <h2 dir="auto">{row.title}</h2>
          {row.due && <Due text={row.due} urgent={row.urgent} />}
        </div>
        <Open row={row} />
      </div>
      <div class="lines">
        {row.lines.map((line) => (
          <p>
            <Figures text={line} />
          </p>
        ))}
      </div>
      {row.chart && <Chart chart={row.chart} />}
    </li>
  );
}

function Due({ text, urgent }: { text: string; urgent: boolean }) {
  return (
    <p class="due">
      {urgent && <Sign />}
      {text}
    </p>
  );
}

/** Named by its bed too: four buttons that all say "Open" tell a listener nothing. */
function Open({ row }: { row: BedRow<string> }) {
  const tap = useTap(row.open);
  const name = `${row.open.label}, ${row.title}`;
  return (
    <button type="button" class="open" data-key={row.open.key} aria-label={name} {...tap}>
      {row.open.label}
    </button>
  );
}
