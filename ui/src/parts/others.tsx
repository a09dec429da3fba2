import type { Small } from "../contract";

/** The dials that are not being turned. */
export function Others({ others }: { others: Small<string>[] }) {
  if (others.length === 0) return null;
  return (
    <dl class="others">
      {others.map((dial) => (
        <div key={dial.label}>
          <dt>{dial.label}</dt>
          <dd>{dial.value}</dd>
        </div>
      ))}
    </dl>
  );
}
