// The bars of a bench: each measured value beside the most it may be.

export const rows = [];

export function bar(what, value, most, unit) {
  rows.push({ what, value: Number(value.toFixed(2)), "at most": Number(most.toFixed(2)), unit, holds: value > 0 && value <= most });
}

export function quantile(values, part) {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * part))];
}

/** Prints the table; the program's exit code says whether all of it holds. */
export function report() {
  console.table(rows);
  process.exitCode = rows.every((row) => row.holds) ? 0 : 1;
}
