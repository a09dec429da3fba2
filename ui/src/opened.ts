// The end of a watch is felt: by the hand where the tablet can, else by the eye's edge.
import { useEffect, useRef } from "preact/hooks";

const PULSE_MS = 200;

/** True from the moment the good answer opened on the card where it was waited for. */
export function useOpened(card: number, waiting: boolean, good: boolean): boolean {
  const waitedOn = useRef<number | null>(null);
  const opened = good && !waiting && waitedOn.current === card;
  useEffect(() => {
    if (waiting) waitedOn.current = card;
  }, [card, waiting]);
  useEffect(() => {
    if (opened && "vibrate" in navigator) navigator.vibrate(PULSE_MS);
  }, [opened]);
  return opened;
}
