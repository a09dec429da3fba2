import { useEffect, useState } from "preact/hooks";

/** What a screen reader says, once a card: a later push of the same card stays silent. */
export function Heard({ text, card }: { text: string; card: number }) {
  const [said, say] = useState("");
  useEffect(() => say(text), [card]);
  return (
    <p class="heard" aria-live="polite">
      {said}
    </p>
  );
}
