import { Figures } from "./figures";

/** The rule behind the figure: the only line of a dial card that may scroll. */
export function Reason({ text }: { text: string | null }) {
  if (!text) return null;
  return (
    <p class="reason">
      <Figures text={text} />
    </p>
  );
}
