import { Figures } from "./figures";

export function Lines({ lines }: { lines: string[] }) {
  if (lines.length === 0) return null;
  return (
    <ul class="plain-lines">
      {lines.map((line) => (
        <li>
          <Figures text={line} />
        </li>
      ))}
    </ul>
  );
}
