// Where the focus is, for whoever has keys alone: never off the card.
import { useLayoutEffect } from "preact/hooks";

/** A new card is read from its top; an answer that only opens leaves the focus alone. */
export function useFocusOnNewCard(card: { current: HTMLElement | null }, id: number): void {
  useLayoutEffect(() => {
    const show = card.current?.querySelector<HTMLElement>(".show");
    show?.focus({ preventScroll: true });
    show?.scrollTo(0, 0);
  }, [id]);
}

/** A button may go while its card stays: the focus then stays in the part where it stood, and Tab goes on from there. */
export function useFocusKept(): void {
  const had = document.activeElement;
  const part = had?.closest<HTMLElement>("section, .show");
  useLayoutEffect(() => {
    const isLost = had?.isConnected === false && document.activeElement === document.body;
    if (isLost) part?.focus({ preventScroll: true });
  });
}
