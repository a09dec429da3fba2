import type { Field } from "../contract";
import { useBedside } from "../bedside";
import { errorId, FieldError } from "./field-parts";

/** A PIN, as dots. The card's keypad fills it; so does a keyboard. It lives as long as its card, and only here. */
export function SecretField({ field }: { field: Field<string> }) {
  const { fields } = useBedside();
  const active = fields.active === field.id;
  return (
    <div class={active ? "field digits active" : "field digits"}>
      <label for={field.id}>{field.label}</label>
      <input
        id={field.id}
        type="password"
        inputMode="none"
        autocomplete="off"
        maxLength={field.max_chars}
        value={fields.values[field.id] ?? ""}
        aria-invalid={field.error !== null}
        aria-describedby={errorId(field)}
        onFocus={() => fields.activate(field.id)}
        onInput={(event) => fields.set(field.id, event.currentTarget.value)}
      />
      <FieldError field={field} />
    </div>
  );
}
