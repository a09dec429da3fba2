// Makes a card stand without scrolling: figure, drawing and gaps give way first, then the growth of large
// letters, then that of all letters. Nothing goes below its size at 100 %.
import { useLayoutEffect } from "preact/hooks";
import type { View } from "./contract";
import { declutter } from "./declutter";

/** How much of the larger text asked for a card can have, best first. */
const TEXT = [1, 0.9, 0.8, 0.7, 0.6, 0.5, 0.4, 0.3, 0.2, 0.1, 0];
/** Room for what is above the buttons, best first: above 1 the figure grows, below it all there gives way. */
const ROOM = [1.8, 1.5, 1.25, 1, 0.8, 0.6, 0.4, 0.2, 0];
/** A card that may scroll is not squeezed for nothing. */
const SCROLLED = 0.8;
/** Below this, parts stand side by side that otherwise stand below each other. */
const CLOSE = 0.5;

interface Ref {
  current: HTMLElement | null;
}

export function useSettled(card: Ref, view: View<string>): void {
  useLayoutEffect(() => settle(card.current), [view]);
  useLayoutEffect(() => {
    const again = () => settle(card.current);
    addEventListener("resize", again);
    document.fonts.addEventListener("loadingdone", again);
    return () => {
      removeEventListener("resize", again);
      document.fonts.removeEventListener("loadingdone", again);
    };
  }, []);
}

function settle(card: HTMLElement | null): void {
  if (!card) return;
  const scrolls = card.classList.contains("free");
  giveRoom(card, 0);
  best(card, scrolls ? [1] : TEXT, giveText);
  if (!best(card, ROOM, giveRoom) && scrolls) giveRoom(card, SCROLLED);
  declutter(card);
}

/** Gives the first amount that fits, or the last; true when it fits. */
function best(card: HTMLElement, amounts: number[], give: (card: HTMLElement, amount: number) => void): boolean {
  return amounts.some((amount) => {
    give(card, amount);
    return !overflows(card);
  });
}

function giveText(card: HTMLElement, share: number): void {
  card.style.setProperty("--grown", String(share));
}

function giveRoom(card: HTMLElement, room: number): void {
  card.style.setProperty("--room", String(room));
  card.classList.toggle("close", room < CLOSE);
}

function overflows(card: HTMLElement): boolean {
  return tooFull(card) || [...card.querySelectorAll(".show, .figure, .reason, .ask, .dials, main")].some(tooFull);
}

function tooFull(element: Element): boolean {
  return element.scrollHeight > element.clientHeight + 1 || element.scrollWidth > element.clientWidth + 1;
}
