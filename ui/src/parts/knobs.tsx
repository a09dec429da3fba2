// The dials of the simulated generator: the one under the hand large with its keys, the others small beside it.
import type { Act, Keys, Knob } from "../contract";
import { useTap } from "../tap";
import { Button } from "./button";

export function Knobs({ knobs }: { knobs: Knob<string>[] }) {
  if (knobs.length === 0) return null;
  return (
    <section class="knobs" tabIndex={-1}>
      {knobs.map((knob) => knob.keys && <Large key={knob.take.key} knob={knob} keys={knob.keys} />)}
      <p class="knob-line">{knobs.map((knob) => `${knob.label} ${knob.figure} ${knob.unit}`.trim()).join(" · ")}</p>
      <div class="small-knobs">{knobs.map((knob) => !knob.keys && <Small key={knob.take.key} knob={knob} />)}</div>
    </section>
  );
}

function Large({ knob, keys }: { knob: Knob<string>; keys: Keys<string> }) {
  return (
    <div class={keys.far_down || keys.far_up ? "knob far" : "knob"}>
      <Turn act={keys.down} place="down" />
      <Turn act={keys.far_down} place="far-down" />
      <p class="reading" role="status">
        <span>
          {knob.label} {knob.unit}
        </span>
        <b>{knob.figure}</b>
      </p>
      <Turn act={keys.up} place="up" />
      <Turn act={keys.far_up} place="far-up" />
    </div>
  );
}

function Turn({ act, place }: { act: Act<string> | null; place: string }) {
  return act && <Button key={act.key} act={act} place={`turn ${place}`} always />;
}

function Small({ knob }: { knob: Knob<string> }) {
  const tap = useTap(knob.take, true);
  return (
    <button type="button" class="small-knob" data-key={knob.take.key} {...tap}>
      <small>{knob.label}</small>
      <b>{knob.figure}</b>
    </button>
  );
}
