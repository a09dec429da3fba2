import { useLayoutEffect, useRef } from "preact/hooks";
import type { Watch as WatchOf } from "../contract";
import { useBedside } from "../bedside";

/** A bar that fills by itself; what opens at its end is pushed, never decided here. */
export function Watch({ watch, slim }: { watch: WatchOf<string>; slim?: boolean }) {
  const fill = useRef<HTMLSpanElement>(null);
  useFilling(fill, watch);
  return (
    <div class={slim ? "watch slim" : "watch answer"} role="progressbar" aria-label={watch.label}>
      <span class="label">{watch.label}</span>
      <span class="track">
        <span class="fill" ref={fill} />
      </span>
    </div>
  );
}

/** Steps of the bar for those who want no movement. */
const STILL = 5;
/** Else it goes on five times a second: drawn anew with every frame it took most of a processor, and battery. */
const STEP_MS = 200;

/** Not a CSS animation: the engine would resolve that anew at each try of settling the card. */
function useFilling(fill: { current: HTMLElement | null }, { from_ms, until_ms }: WatchOf<string>): void {
  const { now, still } = useBedside();
  useLayoutEffect(() => {
    const duration = until_ms - from_ms;
    const steps = still ? STILL : Math.max(1, Math.round(duration / STEP_MS));
    const timing = { duration, delay: from_ms - now(), easing: `steps(${steps}, end)` };
    const filling = fill.current?.animate([{ transform: "scaleX(0)" }, { transform: "none" }], { ...timing, fill: "both" });
    return () => filling?.cancel();
  }, [from_ms, until_ms, still]);
}
