import { Sign } from "./sign";

/** A refusal or a fault, beside the answers it is about. */
export function Notice({ text }: { text: string | null }) {
  return (
    <div class="notice-place" role="alert">
      {text && (
        <p class="notice">
          <Sign />
          <span>{text}</span>
        </p>
      )}
    </div>
  );
}
