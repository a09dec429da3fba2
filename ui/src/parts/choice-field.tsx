import type { Choice, Field } from "../contract";
import { useBedside } from "../bedside";
import { FieldError } from "./field-parts";

/** One of several, each an act of its own that is sent at once. */
export function ChoiceField({ field }: { field: Field<string> }) {
  return (
    <div class="field pick">
      <p class="field-label">{field.label}</p>
      <div class="words" role="group" aria-label={field.label}>
        {field.choices.map((choice) => (
          <ChoiceButton key={choice.value} choice={choice} />
        ))}
      </div>
      <FieldError field={field} />
    </div>
  );
}

function ChoiceButton({ choice }: { choice: Choice<string> }) {
  const { take } = useBedside();
  const { act } = choice;
  if (!act) return null;
  return (
    <button type="button" class="choice" data-key={act.key} aria-pressed={choice.chosen} onClick={() => take(act)}>
      {choice.label}
    </button>
  );
}
