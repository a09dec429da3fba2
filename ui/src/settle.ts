// Makes a card stand without scrolling: figure, drawing and gaps give way first, then the growth of large
// letters, then that of all letters. Nothing goes below its size at 100 %.
import { useLayoutEffect, useRef } from "preact/hooks";
import type { View } from "./contract";
import { declutter } from "./declutter";

/** How much of the larger text asked for a card can have, best first. */
const TEXT = [1, 0.9, 0.8, 0.7, 0.6, 0.5, 0.4, 0.3, 0.2, 0.1, 0];
/** What the card gives to all that stands above the buttons: above 1 the figure grows, below it all there gives way. */
interface Room {
  share: number;
  /** Dials to be read, and their words, stand side by side that otherwise stand below each other. */
  beside: boolean;
  /** So do other parts, and lesser words are smaller. */
  close: boolean;
}
const withShares = (beside: boolean, close: boolean, shares: number[]): Room[] => shares.map((share) => ({ share, beside, close }));
const OPEN = withShares(false, false, [1.8, 1.5, 1.25, 1, 0.8, 0.6, 0.4]);
const BESIDE = withShares(true, false, [1, 0.8, 0.6, 0.4]);
const CLOSE = withShares(true, true, [0.6, 0.4, 0.2, 0]);
const FIRST_GUESS = 3;
const LEAST: Room = { share: 0, beside: true, close: true };
/** A card that may scroll is not squeezed for nothing, and its larger text not pushed together. */
const SCROLLED: Room = { share: 0.8, beside: false, close: false };

/** What may be too full without the card itself scrolling. */
const PARTS = "main, .show, .figure, .reason, .digits label, .ask, .dials, .way-back";

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
  const mayScroll = view.safety === null;
  const large = view.look.text_percent > 100;
  const stand = standOf(view, stands);
  if (large && !mayScroll) stand.text = textThatFits(card, stand.text);
  else giveText(card, 1);
  const rooms = roomsOf(card, large && mayScroll);
  // Room changes the size of the restore dials only where it changes that of large letters.
  const give = large ? giveRoomAndStack : giveRoom;
  const room = firstFitting(rooms.length, Math.min(stand.room, rooms.length - 1), (index) => trial(card, give, rooms[index]));
  stand.room = room ?? rooms.length - 1;
  give(card, room === null && mayScroll ? SCROLLED : rooms[stand.room]);
  if (mayScroll) shrinkTo(card);
  declutter(card);
  reachable(card);
}

/** Best first. */
function roomsOf(card: HTMLElement, largeAndScrolls: boolean): Room[] {
  if (largeAndScrolls) return OPEN;
  return card.querySelector(".digits + .digits, .digits .words") ? [...OPEN, ...BESIDE, ...CLOSE] : [...OPEN, ...CLOSE];
}

function standOf({ shape, answers, aside, look }: View<string>, stands: Stands): Stand {
  const like = `${shape.kind} ${answers.length} ${aside.length} ${look.text_percent}`;
  const stand = stands.get(like) ?? { text: 0, room: FIRST_GUESS };
  stands.set(like, stand);
  return stand;
}

/** Letters come before figure and drawing: their share is found at the tightest room. */
function textThatFits(card: HTMLElement, guess: number): number {
  giveRoom(card, LEAST);
  const last = TEXT.length - 1;
  const index = firstFitting(TEXT.length, guess, (at) => trial(card, giveText, TEXT[at])) ?? last;
  giveText(card, TEXT[index]);
  return index;
}

/** Answers never scroll, even on a card that may: where they alone outgrow the glass, letters grow less. */
function shrinkTo(card: HTMLElement): void {
  const fits = TEXT.find((share) => trial(card, giveText, share, tooFull));
  if (fits === undefined) giveText(card, 0);
}

function trial<Amount>(
  card: HTMLElement,
  give: (card: HTMLElement, amount?: Amount) => void,
  amount?: Amount,
  full: (card: HTMLElement) => boolean = overflows,
): boolean {
  give(card, amount);
  return !full(card);
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

/** The restore dials go below each other when they do not fit beside each other. */
function stack(card: HTMLElement): void {
  const dials = card.querySelector(".dials");
  if (!dials) return;
  card.classList.remove("stacked");
  card.classList.toggle("stacked", tooFull(dials));
}

function giveText(card: HTMLElement, share = 0): void {
  card.style.setProperty("--grown", String(share));
  stack(card);
}

function giveRoom(card: HTMLElement, { share, beside, close }: Room = LEAST): void {
  card.style.setProperty("--room", String(share));
  card.classList.toggle("beside", beside);
  card.classList.toggle("close", close);
}

function giveRoomAndStack(card: HTMLElement, room?: Room): void {
  giveRoom(card, room);
  stack(card);
}

/** What scrolls can be reached, and so scrolled, by keyboard. */
function reachable(card: HTMLElement): void {
  for (const part of card.querySelectorAll<HTMLElement>(".show, .ask, .reason, main")) part.tabIndex = tooFull(part) ? 0 : -1;
}

function overflows(card: HTMLElement): boolean {
  return tooFull(card) || [...card.querySelectorAll(PARTS)].some(tooFull);
}

function tooFull(element: Element): boolean {
  return element.scrollHeight > element.clientHeight + 1 || element.scrollWidth > element.clientWidth + 1;
}
