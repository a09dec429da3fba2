const NUMBER = /(\d+(?:[.:]\d+)?)/;

/** A line of text whose numbers stand out. */
export function Figures({ text }: { text: string }) {
  return <>{text.split(NUMBER).map((part, index) => (index % 2 === 1 ? <b>{part}</b> : part))}</>;
}
