import { useMemo } from "preact/hooks";
import type { Watch as WatchOf } from "../contract";
import { useBedside } from "../bedside";

/** A bar that fills by itself; what opens at its end is pushed, never decided here. */
export function Watch({ watch, slim }: { watch: WatchOf<string>; slim?: boolean }) {
  const { now } = useBedside();
  const { from_ms, until_ms } = watch;
  const timing = useMemo(
    () => ({ "--lasts": `${until_ms - from_ms}ms`, "--since": `${from_ms - now()}ms` }),
    [from_ms, until_ms],
  );
  return (
    <div class={slim ? "watch slim" : "watch answer"} role="progressbar" aria-label={watch.label}>
      <span class="label">{watch.label}</span>
      <span class="track">
        <span class="fill" key={`${from_ms}-${until_ms}`} style={timing} />
      </span>
    </div>
  );
}
