import type { Row } from "../contract";

/** Label and value, one a line. */
export function Rows({ rows }: { rows: Row<string>[] }) {
  if (rows.length === 0) return null;
  return (
    <dl class="rows">
      {rows.map((row) => (
        <div key={row.label}>
          <dt>{row.label}</dt>
          <dd>
            <b>{row.value}</b>
            {row.note && <small>{row.note}</small>}
          </dd>
        </div>
      ))}
    </dl>
  );
}
