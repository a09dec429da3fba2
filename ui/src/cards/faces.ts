import type { ComponentChildren } from "preact";
import type { Watch } from "../contract";

/** A shape's two sides: what to look at, and what stands beside the answers. */
export interface Faces {
  show: ComponentChildren;
  ask?: ComponentChildren;
  /** Holds the good answer's place until its time has passed. */
  waiting?: Watch<string> | null;
}
