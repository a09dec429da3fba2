import type { Code } from "../contract";
import { QrCode } from "../parts/qr-code";
import { Rows } from "../parts/rows";
import type { Faces } from "./faces";

/** A QR code with the same lines readable; where there is nothing to draw, why. */
export function code(shape: Code<string>): Faces {
  if (shape.modules.length === 0) {
    return { show: <h2 class="instruction">{shape.note}</h2>, ask: <Rows rows={shape.rows} /> };
  }
  return {
    show: <QrCode across={shape.across} modules={shape.modules} />,
    ask: (
      <>
        <Rows rows={shape.rows} />
        <p class="note">{shape.note}</p>
      </>
    ),
  };
}
