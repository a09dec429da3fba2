import type { View } from "../contract";
import { Clock } from "./clock";
import { Rail } from "./rail";

/** Bed, wire and stage, one labelled clock, the marks, and how long the patient has stood without standby. */
export function Head({ view }: { view: View<string> }) {
  const { head, rail, marks, safety } = view;
  return (
    <header class="head">
      <div class="whose">
        <h1 dir="auto">{head.title}</h1>
        {head.subtitle && <p class="subtitle">{head.subtitle}</p>}
        {head.clock && <Clock clock={head.clock} place="aside-clock" />}
        {!head.clock && head.wall && <span class="clock aside-clock">{head.wall}</span>}
      </div>
      {rail && <Rail rail={rail} />}
      {(marks.length > 0 || safety?.exposed) && (
        <div class="marks">
          {marks.map((mark) => (
            <span class="mark" key={mark}>
              {mark}
            </span>
          ))}
          {safety?.exposed && <Clock clock={safety.exposed} place="exposed" />}
        </div>
      )}
    </header>
  );
}
