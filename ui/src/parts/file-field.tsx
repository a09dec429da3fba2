import type { Field } from "../contract";
import { useBedside } from "../bedside";
import { errorId, FieldError } from "./field-parts";

/** A file from this tablet; its bytes go in as they are. */
export function FileField({ field }: { field: Field<string> }) {
  const { handIn } = useBedside();
  return (
    <div class="field file">
      <label class="act strong">
        <span class="label">{field.label}</span>
        <input
          id={field.id}
          type="file"
          class="out-of-sight"
          aria-invalid={field.error !== null}
          aria-describedby={errorId(field)}
          onChange={(event) => handFirst(event.currentTarget, (file) => handIn(field.id, file))}
        />
      </label>
      <FieldError field={field} />
    </div>
  );
}

/** Emptied afterwards, so that the same file can be chosen again. */
function handFirst(input: HTMLInputElement, take: (file: File) => void): void {
  const file = input.files?.[0];
  if (file) take(file);
  input.value = "";
}
