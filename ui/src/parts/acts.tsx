import type { Act, Safety, View, Watch as WatchOf } from "../contract";
import { useOpened } from "../opened";
import { Button } from "./button";
import { Watch } from "./watch";

/** The answers, and on a dial card the three that are always there; elsewhere the lesser acts. */
export function Acts({ view, waiting }: { view: View<string>; waiting: WatchOf<string> | null | undefined }) {
  return (
    <section class="acts" tabIndex={-1}>
      <Answers view={view} waiting={waiting ?? null} />
      {view.safety ? <Always safety={view.safety} /> : <Aside acts={view.aside} />}
    </section>
  );
}

function Answers({ view, waiting }: { view: View<string>; waiting: WatchOf<string> | null }) {
  const { answers, card, look } = view;
  const beside = standsBeside(view) ? view.aside : [];
  const good = answers.some((act) => act.tone === "Good");
  const opened = useOpened(card, waiting !== null && !good, good);
  const places = beside.length + answers.length + (waiting && !good ? 1 : 0);
  if (places === 0) return null;
  const classes = ["answers", inThrees(places) && "three", places >= MANY && "many", opened && !look.still && "opened"];
  return (
    <div class={classes.filter(Boolean).join(" ")}>
      {waiting && good && <Watch watch={waiting} slim />}
      {beside.map((act) => (
        <Button key={act.key} act={act} place="answer beside" />
      ))}
      {answers.map((act) => (
        <Button key={act.key} act={act} place="answer" />
      ))}
      {waiting && !good && <Watch watch={waiting} />}
    </div>
  );
}

/** So many stand four in a row where room is short. */
const MANY = 6;

/** Rows of two read best; three or five would leave one alone in a row. */
function inThrees(places: number): boolean {
  return places > 1 && places % 2 === 1;
}

/** Where something is typed on a dial card, Back stands beside what sends it, as on every form. */
export function standsBeside({ shape, safety }: View<string>): boolean {
  return safety !== null && shape.kind === "form";
}

/** The lesser acts: on a dial card they stand at its top, away from the answers. */
export function Aside({ acts }: { acts: Act<string>[] }) {
  if (acts.length === 0) return null;
  return (
    <div class="aside">
      {acts.map((act) => (
        <Button key={act.key} act={act} place={asideOf(act)} always={act.tone === "Alarm"} />
      ))}
    </div>
  );
}

/** Beats can stop before a dial is known: NO BEATS looks the same everywhere. */
function asideOf(act: Act<string>): "no-beats" | "lesser" {
  return act.tone === "Alarm" ? "no-beats" : "lesser";
}

function Always({ safety }: { safety: Safety<string> }) {
  return (
    <div class="always">
      <Button act={safety.no_beats} place="no-beats" always />
      <Lesser act={safety.wrong} />
      <Lesser act={safety.slip} />
    </div>
  );
}

/** Where a card does not take it, its place stays empty, so that the others stand where they always do. */
function Lesser({ act }: { act: Act<string> | null }) {
  return act ? <Button act={act} place="lesser" always /> : <span class="act lesser empty" />;
}
