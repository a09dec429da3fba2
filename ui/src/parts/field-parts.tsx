import type { Field } from "../contract";
import { useBedside } from "../bedside";
import { Sign } from "./sign";

export function errorId(field: Field<string>): string | undefined {
  return field.error ? `${field.id}-error` : undefined;
}

/** What is wrong with the field, beside it. */
export function FieldError({ field }: { field: Field<string> }) {
  if (!field.error) return null;
  return (
    <p class="field-error" id={errorId(field)}>
      <Sign />
      <span>{field.error}</span>
    </p>
  );
}

/** Words that fill the field in one tap. */
export function Words({ field }: { field: Field<string> }) {
  const { fields } = useBedside();
  if (field.choices.length === 0) return null;
  return (
    <div class="words" role="group" aria-label={field.label}>
      {field.choices.map((choice) => (
        <button
          key={choice.value}
          type="button"
          class="choice"
          data-key={`${field.id}:${choice.value}`}
          aria-pressed={fields.values[field.id] === choice.value}
          onClick={() => fields.set(field.id, choice.value)}
        >
          {choice.label}
        </button>
      ))}
    </div>
  );
}
