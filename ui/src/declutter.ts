// Labels of a drawing that would touch a more important one are left out; the drawing's words keep them.

/** Hides the labels (`[data-rank]`, low is important) that overlap one already kept. */
export function declutter(root: HTMLElement): void {
  for (const drawing of root.querySelectorAll(".drawing")) keepApart([...drawing.querySelectorAll<SVGElement>("[data-rank]")]);
}

function keepApart(labels: SVGElement[]): void {
  const kept: DOMRect[] = [];
  for (const label of labels.sort((a, b) => rank(a) - rank(b))) {
    const box = label.getBoundingClientRect();
    const free = kept.every((other) => !touch(box, other));
    label.classList.toggle("left-out", !free);
    if (free) kept.push(box);
  }
}

function rank(label: SVGElement): number {
  return Number(label.dataset["rank"]);
}

/** Horizontal distance that keeps two numbers from reading as one, px. */
const APART = 8;

function touch(a: DOMRect, b: DOMRect): boolean {
  const beside = a.right + APART < b.left || b.right + APART < a.left;
  const above = a.bottom <= b.top || b.bottom <= a.top;
  return !beside && !above;
}
