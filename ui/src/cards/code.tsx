import type { Code } from "../contract";
import { QrCode } from "../parts/qr-code";
import { Rows } from "../parts/rows";
import type { Faces } from "./faces";

/** A QR code with the same lines readable. */
export function code(shape: Code<string>): Faces {
  return {
    show: <QrCode modules={shape.modules} />,
    ask: (
      <>
        <Rows rows={shape.rows} />
        <p class="note">{shape.note}</p>
      </>
    ),
  };
}
