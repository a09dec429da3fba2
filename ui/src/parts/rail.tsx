import type { Rail as RailOf } from "../contract";

/** Progress through the stages; the subtitle says the same in words. */
export function Rail({ rail }: { rail: RailOf }) {
  const stages = Array.from({ length: rail.of }, (_, stage) => stage);
  return (
    <div class="rail" aria-hidden="true">
      {stages.map((stage) => (
        <i key={stage} class={stage < rail.now ? "done" : stage === rail.now ? "now" : ""} />
      ))}
    </div>
  );
}
