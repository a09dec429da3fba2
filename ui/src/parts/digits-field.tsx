import type { Field } from "../contract";
import { useBedside } from "../bedside";
import { FieldError, errorId, Words } from "./field-parts";

/** A dial position. The card's keypad fills it; so do the number keys. */
export function DigitsField({ field }: { field: Field<string> }) {
  const { fields } = useBedside();
  const active = fields.active === field.id;
  const value = fields.values[field.id] ?? "";
  const shown = labelOf(field, value);
  return (
    <div class={active ? "field digits active" : "field digits"}>
      <label for={field.id}>
        {field.label} {field.unit && <span class="unit">{field.unit}</span>}
      </label>
      <input
        id={field.id}
        type="text"
        inputMode="none"
        autocomplete="off"
        class={shown === value ? "" : "word"}
        value={shown}
        aria-invalid={field.error !== null}
        aria-describedby={errorId(field)}
        onFocus={() => fields.activate(field.id)}
        onInput={(event) => {
          fields.set(field.id, event.currentTarget.value);
          event.currentTarget.value = fields.values[field.id] ?? "";
        }}
      />
      <Words field={field} />
      <FieldError field={field} />
    </div>
  );
}

function labelOf(field: Field<string>, value: string): string {
  return field.choices.find((choice) => choice.value === value)?.label ?? value;
}
