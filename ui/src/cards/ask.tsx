import type { Ask } from "../contract";
import { Lines } from "../parts/lines";
import { Others } from "../parts/others";
import { Reason } from "../parts/reason";
import { Scale } from "../parts/scale";
import type { Faces } from "./faces";

/** A question with answers. */
export function ask(shape: Ask<string>): Faces {
  return {
    show: (
      <>
        <h2 class="instruction">{shape.question}</h2>
        <Lines lines={shape.lines} />
        {shape.scale && <Scale scale={shape.scale} />}
        <Reason text={shape.reason} />
        <Others others={shape.others} />
      </>
    ),
    waiting: shape.watch,
  };
}
