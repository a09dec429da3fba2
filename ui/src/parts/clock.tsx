import { useEffect, useState } from "preact/hooks";
import type { Clock as ClockOf } from "../contract";
import { useBedside } from "../bedside";
import { elapsed } from "../time";
import { Sign } from "./sign";

const TICK_MS = 250;

/** A running m:ss beside its label. Never spoken by itself: seconds are not news. */
export function Clock({ clock, place }: { clock: ClockOf<string>; place: string }) {
  const { now } = useBedside();
  const [, redraw] = useState(0);
  useEffect(() => {
    const ticking = setInterval(() => redraw((count) => count + 1), TICK_MS);
    return () => clearInterval(ticking);
  }, []);
  return (
    <span class={`clock ${place} ${clock.urgent ? "urgent" : ""}`} role="timer" aria-live="off">
      {clock.urgent && <Sign />}
      <span>{clock.label}</span>
      <b>{elapsed(now() - clock.since_ms)}</b>
    </span>
  );
}
