// What every part of a card may need: how to answer, what time it is, what has been typed.
import { createContext } from "preact";
import { useContext } from "preact/hooks";
import type { Act } from "./contract";
import type { Fields } from "./fields";
import type { SessionTime } from "./time";

export interface Bedside {
  /** The card on the glass. */
  card: number;
  /** Sends an act that had stood on the glass for so long when it was tapped, ms. */
  take(act: Act<string>, stoodMs: number): void;
  handIn(kind: string, file: File): void;
  now: SessionTime;
  fields: Fields;
  /** The person wants no movement. */
  still: boolean;
}

const Context = createContext<Bedside | null>(null);

export const BedsideProvider = Context.Provider;

export function useBedside(): Bedside {
  const bedside = useContext(Context);
  if (!bedside) throw new Error("a part of a card is drawn outside a card");
  return bedside;
}
