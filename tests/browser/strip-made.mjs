// A made strip for tests of the page: one beat a second, 1 mV high, a pacing mark each second, every third lost.

const SAMPLES = 25;
const HZ = 500;

/** The bytes of one batch, as the host would send them. */
export function madeBatch(stream, number, { apart = false, ecg = ecgAt, marks = marksOf(number) } = {}) {
  const bytes = new DataView(new ArrayBuffer(12 + 4 * SAMPLES + 2 * marks.length));
  bytes.setUint32(0, stream, true);
  bytes.setUint32(4, number, true);
  bytes.setUint16(8, 60, true);
  bytes.setUint8(10, apart ? 1 : 0);
  bytes.setUint8(11, marks.length);
  for (let at = 0; at < SAMPLES; at += 1) {
    const sample = number * SAMPLES + at;
    bytes.setInt16(12 + 2 * at, ecg(sample), true);
    bytes.setInt16(12 + 2 * (SAMPLES + at), pulseAt(sample), true);
  }
  marks.forEach(([sample, kind], at) => {
    bytes.setUint8(112 + 2 * at, sample);
    bytes.setUint8(113 + 2 * at, kind);
  });
  return [...new Uint8Array(bytes.buffer)];
}

/** A triangle, 40 ms wide and 1 mV high, each second. */
function ecgAt(sample) {
  const since = sample % HZ;
  if (since >= 20) return 0;
  return Math.round(1000 * (1 - Math.abs(since - 10) / 10));
}

function pulseAt(sample) {
  const since = (sample + HZ - 100) % HZ;
  return since < 200 ? 70 + Math.round(45 * Math.sin((Math.PI * since) / 200)) : 70;
}

const VP = 3;
const LOST = 0x80;

function marksOf(number) {
  if (number % 20 !== 0) return [];
  return [[0, (number / 20) % 3 === 2 ? VP | LOST : VP]];
}
