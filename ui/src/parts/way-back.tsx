import type { Hand, Safety, Strip } from "../contract";
import { Button } from "./button";

/** The restore settings in view and the one act that goes back to them, always in the same corner. */
export function WayBack({ safety, hand }: { safety: Safety<string>; hand: Hand }) {
  const stop = <Button key="stop" act={safety.stop} place="stop" always />;
  const dials = <div class="dials" key="dials">{safety.strip && <Dials strip={safety.strip} />}</div>;
  return <footer class="way-back">{hand === "Left" ? [stop, dials] : [dials, stop]}</footer>;
}

function Dials({ strip }: { strip: Strip<string> }) {
  return (
    <>
      <p class="restore">{strip.label}</p>
      <dl>
        {strip.dials.map((dial) => (
          <div key={dial.label}>
            <dt>{dial.label}</dt>
            <dd>{dial.value}</dd>
          </div>
        ))}
      </dl>
      {strip.note && <p class="strip-note">{strip.note}</p>}
    </>
  );
}
