import type { Field, Form } from "../contract";
import { CameraField } from "../parts/camera-field";
import { ChoiceField } from "../parts/choice-field";
import { DigitsField } from "../parts/digits-field";
import { FileField } from "../parts/file-field";
import { Keypad } from "../parts/keypad";
import { Lines } from "../parts/lines";
import { LinesField } from "../parts/lines-field";
import { PickField } from "../parts/pick-field";
import { SecretField } from "../parts/secret-field";
import { TextField } from "../parts/text-field";
import type { Faces } from "./faces";

/** Fields to fill; digits by the card's own keypad. */
export function form(shape: Form<string>): Faces {
  const digits = shape.fields.some((field) => field.kind === "Digits");
  const secret = shape.fields.some((field) => field.kind === "Secret");
  return {
    show: (
      <>
        <h2 class="instruction">{shape.question}</h2>
        <Lines lines={shape.lines} />
        <div class="fields">
          {shape.fields.map((field) => (
            <FieldOf key={field.id} field={field} />
          ))}
        </div>
      </>
    ),
    ask: (digits || secret) && <Keypad point={digits} />,
  };
}

function FieldOf({ field }: { field: Field<string> }) {
  switch (field.kind) {
    case "Digits":
      return <DigitsField field={field} />;
    case "Text":
      return <TextField field={field} />;
    case "Lines":
      return <LinesField field={field} />;
    case "Camera":
      return <CameraField field={field} />;
    case "Pick":
      return <PickField field={field} />;
    case "Choice":
      return <ChoiceField field={field} />;
    case "File":
      return <FileField field={field} />;
    case "Secret":
      return <SecretField field={field} />;
    default:
      return unknownKind(field.kind);
  }
}

function unknownKind(kind: never): never {
  throw new Error(`a field this page does not know: ${String(kind)}`);
}
