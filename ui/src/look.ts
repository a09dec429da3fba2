// Puts the person's look on the page's root, where the styles read it.
import { useLayoutEffect } from "preact/hooks";
import type { Look } from "./contract";

export function useLook(look: Look): void {
  useLayoutEffect(() => {
    const root = document.documentElement;
    root.dataset["light"] = look.light.toLowerCase();
    root.style.setProperty("--growth", String(look.text_percent / 100));
  }, [look.light, look.text_percent]);
}
