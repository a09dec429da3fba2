// The frame every card shares: head, what to do, what to ask, the answers, the way back.
import { useRef } from "preact/hooks";
import type { Faces } from "./cards/faces";
import type { View } from "./contract";
import { useFocusKept, useFocusOnNewCard } from "./focus";
import { useLook } from "./look";
import { Acts, Aside, standsBeside } from "./parts/acts";
import { Head } from "./parts/head";
import { Heard } from "./parts/heard";
import { Knobs } from "./parts/knobs";
import { Monitor } from "./parts/monitor";
import { Notice } from "./parts/notice";
import { Progress } from "./parts/progress";
import { WayBack } from "./parts/way-back";
import { useSettled } from "./settle";

export function Card({ view, faces }: { view: View<string>; faces: Faces }) {
  const card = useRef<HTMLDivElement>(null);
  useLook(view.look);
  useSettled(card, view);
  useFocusKept();
  useFocusOnNewCard(card, view.card);
  const patient = view.practice?.monitor ? "with-patient" : "";
  const framed = view.practice ? "practice" : "";
  const place = view.safety ? "on-dial" : "free";
  const classes = ["card", `of-${view.shape.kind}`, place, view.look.hand.toLowerCase(), framed, patient].filter(Boolean);
  return (
    <>
      <div class={classes.join(" ")} ref={card}>
        <Head view={view} />
        <main>
          <div class="show">
            <Shown view={view} faces={faces} />
            {view.progress && <Progress progress={view.progress} />}
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

/** What to look at; beside a simulated patient its monitor and dials come first. */
function Shown({ view, faces }: { view: View<string>; faces: Faces }) {
  const { practice, look } = view;
  if (!practice?.monitor) return <>{faces.show}</>;
  return (
    <>
      <Monitor key={practice.monitor.stream} monitor={practice.monitor} light={look.light} />
      <Knobs knobs={practice.knobs} />
      <div class="told">{faces.show}</div>
    </>
  );
}
