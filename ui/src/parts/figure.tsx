interface FigureProps {
  figure: string;
  unit: string;
  from: string | null;
  hint: string | null;
}

/** Longest position still drawn at full size; a printed word gives way. */
const FULL_SIZE_CHARS = 4;

/** The one dial position of the card, large. */
export function Figure({ figure, unit, from, hint }: FigureProps) {
  const squeeze = Math.min(1, FULL_SIZE_CHARS / figure.length);
  return (
    <div class="figure">
      <p class="position">
        <b style={{ "--squeeze": squeeze }}>{figure}</b> <span class="unit">{unit}</span>
      </p>
      {(from || hint) && (
        <p class="from">
          {from && <span>{from}</span>}
          {hint && <span class="hint">{hint}</span>}
        </p>
      )}
    </div>
  );
}
