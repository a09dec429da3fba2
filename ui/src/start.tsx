// Joins a bridge to the page: each view is drawn, then acknowledged once it is on the glass.
import { render } from "preact";
import { App } from "./app";
import type { Bridge } from "./bridge";
import { type Act, FILE_MOST, type View } from "./contract";
import { batchOf } from "./strip/batch";
import { ring } from "./strip/ring";
import "./style/index.css";

export function start(bridge: Bridge): void {
  const card = element("card");
  const notRunning = element("not-running");
  const notTaken = element("not-taken");

  function send(view: View<string>, act: Act<string>, values: Record<string, string>, stoodMs: number): void {
    const sent = {
      card: view.card,
      command: act.command,
      values: act.with_fields ? values : {},
      stood_ms: Math.max(0, Math.round(stoodMs)),
    };
    bridge.send(sent).catch(refused);
  }

  function handIn(kind: string, file: File): void {
    file.slice(0, FILE_MOST).arrayBuffer().then((bytes) => bridge.handIn(kind, new Uint8Array(bytes))).catch(refused);
  }

  function refused(fault: unknown): void {
    notTaken.hidden = false;
    reportError(fault);
  }

  function broken(fault: unknown): void {
    notRunning.hidden = false;
    reportError(fault);
  }

  function show(view: View<string>): void {
    notRunning.hidden = true;
    notTaken.hidden = true;
    render(<App view={view} send={send} handIn={handIn} broken={broken} />, card);
    card.dataset.rendered ??= String(now());
    if (notRunning.hidden) afterPaint(() => painted(view.card));
  }

  /** Told to the app, and left on the page for tests: which card, and when. */
  function painted(id: number): void {
    card.dataset.card = String(id);
    card.dataset.painted = String(now());
    bridge.painted(id).catch(reportError);
  }

  for (const face of document.fonts) face.load().catch(reportError);
  bridge.watch(show).catch(broken);
  bridge.watchStrip((bytes) => ring.take(batchOf(bytes))).catch(reportError);
}

function element(id: string): HTMLElement {
  const found = document.getElementById(id);
  if (!found) throw new Error(`the page lacks #${id}`);
  return found;
}

function now(): number {
  return performance.timeOrigin + performance.now();
}

function afterPaint(then: () => void): void {
  requestAnimationFrame(() => setTimeout(then));
}
