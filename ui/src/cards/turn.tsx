import type { Turn } from "../contract";
import { Figure } from "../parts/figure";
import { Others } from "../parts/others";
import { Reason } from "../parts/reason";
import { Scale } from "../parts/scale";
import type { Faces } from "./faces";

/** One dial to one position, then a question. */
export function turn(shape: Turn<string>): Faces {
  return {
    show: (
      <>
        <h2 class="instruction">{shape.instruction}</h2>
        <Figure figure={shape.figure} unit={shape.unit} from={shape.from} hint={shape.hint} />
        {shape.scale && <Scale scale={shape.scale} />}
        <Reason text={shape.reason} />
        <Others others={shape.others} />
      </>
    ),
    ask: <p class="question">{shape.question}</p>,
    waiting: shape.watch,
  };
}
