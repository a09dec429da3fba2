import type { Outcome } from "../contract";
import { Rows } from "../parts/rows";
import { Scale } from "../parts/scale";
import { Sign } from "../parts/sign";
import type { Faces } from "./faces";

/** What was found, with scales and flags. */
export function result(shape: Outcome<string>): Faces {
  return {
    show: (
      <>
        <h2 class="instruction">{shape.headline}</h2>
        {shape.flags.length > 0 && <Flags flags={shape.flags} />}
        {shape.scales.map((scale) => (
          <div class="sheet">
            <Scale scale={scale} />
          </div>
        ))}
        <Rows rows={shape.rows} />
        {shape.note && <p class="note">{shape.note}</p>}
      </>
    ),
  };
}

function Flags({ flags }: { flags: string[] }) {
  return (
    <ul class="flags">
      {flags.map((flag) => (
        <li>
          <Sign />
          <span>{flag}</span>
        </li>
      ))}
    </ul>
  );
}
