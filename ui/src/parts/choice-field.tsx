import type { Act, Choice, Field } from "../contract";
import { useTap } from "../tap";
import { FieldError } from "./field-parts";

/** One of several, each an act of its own that is sent at once. */
export function ChoiceField({ field }: { field: Field<string> }) {
  return (
    <div class="field pick">
      <p class="field-label">{field.label}</p>
      <div class="words" role="group" aria-label={field.label}>
        {field.choices.map((choice) => choice.act && <ChoiceButton key={choice.value} choice={choice} act={choice.act} />)}
      </div>
      <FieldError field={field} />
    </div>
  );
}

function ChoiceButton({ choice, act }: { choice: Choice<string>; act: Act<string> }) {
  const tap = useTap(act);
  return (
    <button type="button" class="choice" data-key={act.key} aria-pressed={choice.chosen} {...tap}>
      {choice.label}
    </button>
  );
}
