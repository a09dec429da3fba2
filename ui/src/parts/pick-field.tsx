import type { Field } from "../contract";
import { FieldError, Words } from "./field-parts";

/** One of several, held here and sent with the form. */
export function PickField({ field }: { field: Field<string> }) {
  return (
    <div class="field pick">
      <p class="field-label">{field.label}</p>
      <Words field={field} />
      <FieldError field={field} />
    </div>
  );
}
