import type { Field } from "../contract";
import { useBedside } from "../bedside";
import { errorId, FieldError } from "./field-parts";

/** Text of several lines, as it was typed, scanned or pasted: what is too long is answered in words. */
export function LinesField({ field }: { field: Field<string> }) {
  const { fields } = useBedside();
  return (
    <div class="field text">
      <label for={field.id}>{field.label}</label>
      <textarea
        id={field.id}
        rows={3}
        autocomplete="off"
        autocapitalize="off"
        spellcheck={false}
        value={fields.values[field.id] ?? ""}
        aria-invalid={field.error !== null}
        aria-describedby={errorId(field)}
        onInput={(event) => fields.set(field.id, event.currentTarget.value)}
      />
      <FieldError field={field} />
    </div>
  );
}
