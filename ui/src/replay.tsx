// Shows golden views in a plain browser: `replay.html#name` fetches `views/name.json`; a test calls
// `replay.show(view)` and reads what the page sent. Not part of the app.
import type { Bridge } from "./bridge";
import type { Sent, View } from "./contract";
import { start } from "./start";

interface Replay {
  show(view: View<string>): void;
  /** A batch of the strip, as the host would send it. */
  strip(bytes: number[]): void;
  sent: Sent[];
  painted: number[];
  handedIn: { kind: string; bytes: number }[];
  /** When true the host refuses every act. */
  deaf: boolean;
}

declare global {
  var replay: Replay;
}

const replay: Replay = {
  show: () => undefined,
  strip: () => undefined,
  sent: [],
  painted: [],
  handedIn: [],
  deaf: false,
};
globalThis.replay = replay;

const bridge: Bridge = {
  async send(sent) {
    if (replay.deaf) throw new Error("deaf");
    replay.sent.push(sent);
  },
  async watch(show) {
    replay.show = show;
  },
  async watchStrip(take) {
    replay.strip = (bytes) => take(new Uint8Array(bytes).buffer);
  },
  async painted(card) {
    replay.painted.push(card);
  },
  async handIn(kind, bytes) {
    replay.handedIn.push({ kind, bytes: bytes.length });
  },
};

async function showNamed(): Promise<void> {
  const name = location.hash.slice(1);
  if (!name) return;
  const answer = await fetch(`views/${name}.json`);
  if (!answer.ok) throw new Error(`no golden view ${name}`);
  replay.show(await answer.json());
}

start(bridge);
addEventListener("hashchange", () => void showNamed());
void showNamed();
