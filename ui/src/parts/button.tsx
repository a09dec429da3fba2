import type { Act, Tone } from "../contract";
import { useBedside } from "../bedside";

const TONES: Record<Tone, string> = { Good: "good", Bad: "bad", Alarm: "alarm", Strong: "strong", Plain: "plain" };

/** One act. Its key keeps the node, so that a view pushed between press and release loses no tap. */
export function Button({ act, place }: { act: Act<string>; place: string }) {
  const { take } = useBedside();
  return (
    <button type="button" class={`act ${TONES[act.tone]} ${place}`} data-key={act.key} onClick={() => take(act)}>
      <span class="label">{act.label}</span>
      {act.note && <small>{act.note}</small>}
    </button>
  );
}
