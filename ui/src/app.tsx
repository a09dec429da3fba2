// One view in, one card out. The page decides nothing: the shape says how, the view says what.
import { useMemo } from "preact/hooks";
import { BedsideProvider } from "./bedside";
import { Boundary } from "./boundary";
import { beds } from "./cards/beds";
import { ask } from "./cards/ask";
import { chart } from "./cards/chart";
import { code } from "./cards/code";
import type { Faces } from "./cards/faces";
import { form } from "./cards/form";
import { list } from "./cards/list";
import { result } from "./cards/result";
import { turn } from "./cards/turn";
import type { Act, Shape, View } from "./contract";
import { Card } from "./card";
import { useFields } from "./fields";
import { runningFrom } from "./time";

interface AppProps {
  view: View<string>;
  send(view: View<string>, act: Act<string>, values: Record<string, string>, stoodMs: number): void;
  handIn(kind: string, file: File): void;
  broken(fault: unknown): void;
}

export function App({ view, send, handIn, broken }: AppProps) {
  const now = useMemo(() => runningFrom(view.now_ms), [view]);
  const fields = useFields(view);
  const take = (act: Act<string>, stoodMs: number) => send(view, act, fields.values, stoodMs);
  return (
    <Boundary of={view} broken={broken}>
      {() => (
        <BedsideProvider value={{ card: view.card, take, handIn, now, fields, still: view.look.still }}>
          <Card view={view} faces={facesOf(view.shape)} />
        </BedsideProvider>
      )}
    </Boundary>
  );
}

function facesOf(shape: Shape<string>): Faces {
  switch (shape.kind) {
    case "turn":
      return turn(shape);
    case "ask":
      return ask(shape);
    case "list":
      return list(shape);
    case "form":
      return form(shape);
    case "result":
      return result(shape);
    case "code":
      return code(shape);
    case "chart":
      return chart(shape);
    case "beds":
      return beds(shape);
    default:
      return unknownShape(shape);
  }
}

function unknownShape(shape: never): never {
  throw new Error(`a shape this page does not know: ${JSON.stringify(shape)}`);
}
