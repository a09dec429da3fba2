import type { Field } from "../contract";
import { useBedside } from "../bedside";
import { errorId, FieldError, Words } from "./field-parts";

/** Free words, by the platform's keyboard. */
export function TextField({ field }: { field: Field<string> }) {
  const { fields } = useBedside();
  return (
    <div class="field text">
      <label for={field.id}>{field.label}</label>
      <input
        id={field.id}
        type="text"
        dir="auto"
        autocomplete="off"
        maxLength={field.max_chars}
        value={fields.values[field.id] ?? ""}
        aria-invalid={field.error !== null}
        aria-describedby={errorId(field)}
        onInput={(event) => fields.set(field.id, event.currentTarget.value)}
      />
      <Words field={field} />
      <FieldError field={field} />
    </div>
  );
}
