// Makes a card stand without scrolling: figure, drawing and gaps give way first, then the growth of large
// letters, then that of all letters. Nothing goes below its size at 100 %.
import { useLayoutEffect, useRef } from "preact/hooks";
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

/** Where a card stood (indices): the next of its like mostly stands there too, and each try lays the card out anew. */
interface Stand {
  text: number;
  room: number;
}
type Stands = Map<string, Stand>;

export function useSettled(card: Ref, view: View<string>): void {
  const stands = useRef<Stands>(new Map());
  useLayoutEffect(() => settle(card.current, view, stands.current), [view]);
  useLayoutEffect(() => {
    const again = () => settle(card.current, view, stands.current);
    addEventListener("resize", again);
    document.fonts.addEventListener("loadingdone", again);
    return () => {
      removeEventListener("resize", again);
      document.fonts.removeEventListener("loadingdone", again);
    };
  }, [view]);
}

function settle(card: HTMLElement | null, view: View<string>, stands: Stands): void {
  if (!card) return;
  const stand = standOf(view, stands);
  const mayScroll = view.safety === null;
  if (view.look.text_percent > 100 && !mayScroll) stand.text = textThatFits(card, stand.text);
  else giveText(card, 1);
  const room = firstFitting(ROOM.length, stand.room, (index) => trial(card, giveRoom, ROOM[index]));
  stand.room = room ?? ROOM.length - 1;
  giveRoom(card, room === null && mayScroll ? SCROLLED : ROOM[stand.room]);
  declutter(card);
  reachable(card);
}

function standOf({ shape, answers, aside, look }: View<string>, stands: Stands): Stand {
  const like = `${shape.kind} ${answers.length} ${aside.length} ${look.text_percent}`;
  const stand = stands.get(like) ?? { text: 0, room: ROOM.indexOf(1) };
  stands.set(like, stand);
  return stand;
}

/** Letters come before figure and drawing: their share is found at the tightest room. */
function textThatFits(card: HTMLElement, guess: number): number {
  giveRoom(card, 0);
  const last = TEXT.length - 1;
  const index = firstFitting(TEXT.length, guess, (at) => trial(card, giveText, TEXT[at])) ?? last;
  giveText(card, TEXT[index]);
  return index;
}

function trial(card: HTMLElement, give: typeof giveRoom, amount: number | undefined): boolean {
  give(card, amount);
  return !overflows(card);
}

/** The first of `count` amounts, best first, that fits; `null` when none does. If one fits, so do all after it. */
function firstFitting(count: number, guess: number, fits: (index: number) => boolean): number | null {
  let [low, high] = [0, count];
  let next = guess;
  while (low < high) {
    if (fits(next)) high = next;
    else low = next + 1;
    next = high === guess ? Math.max(low, high - 1) : Math.floor((low + high) / 2);
  }
  return low < count ? low : null;
}

function giveText(card: HTMLElement, share = 0): void {
  card.style.setProperty("--grown", String(share));
}

function giveRoom(card: HTMLElement, room = 0): void {
  card.style.setProperty("--room", String(room));
  card.classList.toggle("close", room < CLOSE);
}

/** What scrolls can be reached, and so scrolled, by keyboard. */
function reachable(card: HTMLElement): void {
  for (const part of card.querySelectorAll<HTMLElement>(".show, .reason, main")) part.tabIndex = tooFull(part) ? 0 : -1;
}

function overflows(card: HTMLElement): boolean {
  return tooFull(card) || [...card.querySelectorAll(".show, .figure, .reason, .ask, .dials, main")].some(tooFull);
}

function tooFull(element: Element): boolean {
  return element.scrollHeight > element.clientHeight + 1 || element.scrollWidth > element.clientWidth + 1;
}
