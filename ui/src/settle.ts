// Makes a card stand without scrolling: figure, drawing and gaps give way first, step by step; buttons never do.
import { useLayoutEffect } from "preact/hooks";
import type { View } from "./contract";
import { declutter } from "./declutter";

/** Room for what is above the buttons: above 1 the figure grows, below it everything there gives way. */
const ROOM = [1.8, 1.5, 1.25, 1, 0.8, 0.6, 0.4, 0.2, 0];
/** A card that may scroll is not squeezed for nothing. */
const ROOM_TO_SCROLL = 0.8;

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
  const fits = ROOM.some((room) => {
    giveRoom(card, room);
    return !overflows(card);
  });
  if (!fits && card.classList.contains("free")) giveRoom(card, ROOM_TO_SCROLL);
  declutter(card);
}

function giveRoom(card: HTMLElement, room: number): void {
  card.style.setProperty("--room", String(room));
}

function overflows(card: HTMLElement): boolean {
  return tooFull(card) || [...card.querySelectorAll(".show, .reason, main")].some(tooFull);
}

function tooFull(element: Element): boolean {
  return element.scrollHeight > element.clientHeight + 1 || element.scrollWidth > element.clientWidth + 1;
}
