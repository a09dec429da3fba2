// The only file that knows the host. Everything else takes a `Bridge`.
import { Channel, invoke } from "@tauri-apps/api/core";
import type { Sent, View } from "./contract";

export interface Bridge {
  /** Sends one act. Rejects only when the host itself did not take it. */
  send(sent: Sent): Promise<void>;
  /** Calls `show` with every view from now on. */
  watch(show: (view: View<string>) => void): Promise<void>;
  /** Calls `take` with each twentieth of a second of a simulated patient's strip. */
  watchStrip(take: (bytes: ArrayBuffer) => void): Promise<void>;
  /** Says that this card has reached the glass. */
  painted(card: number): Promise<void>;
  /** Hands in a file's bytes for the field of this name. */
  handIn(kind: string, bytes: Uint8Array): Promise<void>;
}

export const host: Bridge = {
  send: (sent) => invoke("send", { sent }),
  watch: (show) => invoke("watch", { channel: new Channel<View<string>>(show) }),
  watchStrip: (take) => invoke("watch_strip", { channel: new Channel<string>((text) => take(bytesOf(text))) }),
  painted: (card) => invoke("painted", { card }),
  handIn: (kind, bytes) => invoke("hand_in", bytes, { headers: { kind } }),
};

/** Of pairs of hexadecimal digits. */
function bytesOf(text: string): ArrayBuffer {
  return Uint8Array.from({ length: text.length / 2 }, (_, at) => Number.parseInt(text.slice(2 * at, 2 * at + 2), 16)).buffer;
}
