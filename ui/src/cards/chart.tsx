import type { Trend } from "../contract";
import { Chart } from "../parts/chart";
import { Rows } from "../parts/rows";
import type { Faces } from "./faces";

/** Values over days. */
export function chart(shape: Trend<string>): Faces {
  return {
    show: (
      <>
        <h2 class="instruction">{shape.headline}</h2>
        {shape.charts.map((one) => (
          <div class="sheet">
            <Chart chart={one} />
          </div>
        ))}
        <Rows rows={shape.rows} />
      </>
    ),
  };
}
