import type { Act, Tone } from "../contract";
import { useTap } from "../tap";

const TONES: Record<Tone, string> = { Good: "good", Bad: "bad", Alarm: "alarm", Strong: "strong", Plain: "plain" };

interface ButtonProps {
  act: Act<string>;
  place: string;
  always?: boolean;
}

/** One act. Its key keeps the node, so that a view pushed between press and release loses no tap. */
export function Button({ act, place, always }: ButtonProps) {
  const tap = useTap(act, always);
  return (
    <button type="button" class={`act ${TONES[act.tone]} ${place}`} data-key={act.key} {...tap}>
      <span class="label">{act.label}</span>
      {act.note && <small>{act.note}</small>}
    </button>
  );
}
