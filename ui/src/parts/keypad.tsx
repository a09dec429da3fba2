import { useBedside } from "../bedside";

const KEYS = ["1", "2", "3", "Backspace", "4", "5", "6", ".", "7", "8", "9", "0"];

/** Fills the active field of digits. Pressing a key leaves the focus in the field. A PIN has no point: its place stays empty. */
export function Keypad({ point }: { point: boolean }) {
  const { fields } = useBedside();
  return (
    <div class="keypad">
      {KEYS.map((key) => key === "." && !point ? <span key={key} /> : (
        <button
          key={key}
          type="button"
          class="pad-key"
          data-key={`pad-${key}`}
          aria-label={key === "Backspace" ? "⌫" : key}
          onPointerDown={(event) => event.preventDefault()}
          onClick={() => fields.press(key)}
        >
          {key === "Backspace" ? <Erase /> : key}
        </button>
      ))}
    </div>
  );
}

function Erase() {
  return (
    <svg class="erase" viewBox="0 0 32 24" aria-hidden="true">
      <path d="M11 2h19v20H11L2 12zM16 8l8 8M24 8l-8 8" />
    </svg>
  );
}
