import type { Progress as ProgressOf } from "../contract";

/** How far slow work is, as it was told: it never moves by itself. */
export function Progress({ progress: { label, done, of } }: { progress: ProgressOf<string> }) {
  return (
    <div class="watch slim" role="progressbar" aria-label={label} aria-valuenow={done} aria-valuemin={0} aria-valuemax={of}>
      <span class="label">{label}</span>
      <span class="track">
        <span class="fill" style={{ transform: `scaleX(${done / of})` }} />
      </span>
    </div>
  );
}
