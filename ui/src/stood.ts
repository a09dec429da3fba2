// How long something has stood on the glass where a finger finds it. The second half of a double tap lands on
// what has only just come there.
import { useEffect, useLayoutEffect, useRef } from "preact/hooks";
import { madeAt } from "./made";

/** Counts anew when `anew` changes, and when the place moves away from under the finger. Times in ms. */
export function useStood<Drawn extends HTMLElement>(anew: unknown) {
  const drawn = useRef<Drawn>(null);
  const since = useRef<number | null>(null);
  const place = useRef<DOMRect | null>(null);
  useLayoutEffect(() => {
    since.current = null;
  }, [anew]);
  useEffect(() => {
    const now = drawn.current?.getBoundingClientRect() ?? null;
    if (since.current === null || hasMoved(place.current, now)) since.current = performance.now();
    place.current = now;
  });
  const stoodAt = (click: MouseEvent) => (since.current === null ? 0 : madeAt(click) - since.current);
  return { drawn, stoodAt };
}

/** More than half of it lies where it did not lie before. */
function hasMoved(before: DOMRect | null, now: DOMRect | null): boolean {
  if (!before || !now) return true;
  return Math.abs(before.x - now.x) > now.width / 2 || Math.abs(before.y - now.y) > now.height / 2;
}
