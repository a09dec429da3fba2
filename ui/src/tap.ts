// A tap on an act, with how long the act had stood there.
import type { Act } from "./contract";
import { useBedside } from "./bedside";
import { useStood } from "./stood";

/** `always`: the same act, in the same place, on the card before and the card after. */
export function useTap(act: Act<string>, always = false) {
  const { card, take } = useBedside();
  const { drawn, stoodAt } = useStood<HTMLButtonElement>(always || card);
  return { ref: drawn, onClick: (tap: MouseEvent) => take(act, stoodAt(tap)) };
}
