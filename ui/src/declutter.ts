// Labels of a drawing stay inside it; one that would touch a more important one is left out. The drawing's words
// keep them all.

/** Hides the labels (`[data-rank]`, low is important) that overlap one already kept. */
export function declutter(root: HTMLElement): void {
  for (const drawing of root.querySelectorAll<HTMLElement>(".drawing")) {
    const labels = [...drawing.querySelectorAll<HTMLElement>("[data-rank]")];
    keepInside(drawing.getBoundingClientRect(), labels);
    keepApart(labels);
  }
}

function keepInside(frame: DOMRect, labels: HTMLElement[]): void {
  for (const label of labels) label.style.removeProperty("--shift");
  for (const label of labels) {
    const box = label.getBoundingClientRect();
    const shift = Math.max(0, frame.left - box.left) - Math.max(0, box.right - frame.right);
    if (shift !== 0) label.style.setProperty("--shift", `${shift}px`);
  }
}

function keepApart(labels: HTMLElement[]): void {
  const kept: DOMRect[] = [];
  for (const label of labels.sort((a, b) => rank(a) - rank(b))) {
    const box = label.getBoundingClientRect();
    const free = kept.every((other) => !touch(box, other));
    label.classList.toggle("left-out", !free);
    if (free) kept.push(box);
  }
}

function rank(label: HTMLElement): number {
  return Number(label.dataset["rank"]);
}

/** Horizontal distance that keeps two numbers from reading as one, px. */
const APART = 8;

function touch(a: DOMRect, b: DOMRect): boolean {
  const beside = a.right + APART < b.left || b.right + APART < a.left;
  const above = a.bottom <= b.top || b.bottom <= a.top;
  return !beside && !above;
}
