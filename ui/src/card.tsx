// The frame every card shares: head, what to do, what to ask, the answers, the way back.
import { useLayoutEffect, useRef } from "preact/hooks";
import type { Faces } from "./cards/faces";
import type { View } from "./contract";
import { useLook } from "./look";
import { Acts, Aside, standsBeside } from "./parts/acts";
import { Head } from "./parts/head";
import { Heard } from "./parts/heard";
import { Notice } from "./parts/notice";
import { WayBack } from "./parts/way-back";
import { useSettled } from "./settle";

export function Card({ view, faces }: { view: View<string>; faces: Faces }) {
  const card = useRef<HTMLDivElement>(null);
  useLook(view.look);
  useSettled(card, view);
  useFocusOnNewCard(card, view.card);
  const classes = ["card", `of-${view.shape.kind}`, view.safety ? "on-dial" : "free", view.look.hand.toLowerCase()];
  return (
    <>
      <div class={classes.join(" ")} ref={card}>
        <Head view={view} />
        <main>
          <div class="show">
            {faces.show}
            {view.safety && !standsBeside(view) && <Aside acts={view.aside} />}
          </div>
          <div class={faces.ask || view.notice ? "ask" : "ask nothing"}>
            {faces.ask}
            <Notice text={view.notice} />
          </div>
        </main>
        <Acts view={view} waiting={faces.waiting} />
        {view.safety && <WayBack safety={view.safety} hand={view.look.hand} />}
      </div>
      <Heard text={view.spoken} card={view.card} />
    </>
  );
}

/** A new card is read from its top; an answer that only opens leaves the focus alone. */
function useFocusOnNewCard(card: { current: HTMLElement | null }, id: number): void {
  useLayoutEffect(() => {
    const show = card.current?.querySelector<HTMLElement>(".show");
    show?.focus({ preventScroll: true });
    show?.scrollTo(0, 0);
  }, [id]);
}
