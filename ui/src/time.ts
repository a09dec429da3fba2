// Session time in the page: the view brings one instant, the page lets it run on.

/** Gives the present session time, ms. */
export type SessionTime = () => number;

/** A clock that stood at `nowMs` when this was called. */
export function runningFrom(nowMs: number): SessionTime {
  const received = performance.now();
  return () => nowMs + performance.now() - received;
}

/** "0:42", "12:05", "1:00:09". Never negative. */
export function elapsed(ms: number): string {
  const seconds = Math.max(0, Math.floor(ms / 1000));
  const [hours, minutes] = [Math.floor(seconds / 3600), Math.floor(seconds / 60) % 60];
  const tail = `${two(seconds % 60)}`;
  return hours > 0 ? `${hours}:${two(minutes)}:${tail}` : `${minutes}:${tail}`;
}

function two(number: number): string {
  return String(number).padStart(2, "0");
}
