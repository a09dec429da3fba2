// The strip as bytes, and the half minute of it that is kept.
import assert from "node:assert/strict";
import test from "node:test";
import { read } from "./read.mjs";

const { SAMPLES, HZ, batchOf } = await read("strip/batch.ts");
const { GAP, Ring } = await read("strip/ring.ts");

/** As the app sends it: the format stands a second time here. */
function bytes({ stream = 1, number = 0, perMinute = 72, flags = 0, ecg = () => 0, pulse = () => 0, marks = [] }) {
  const view = new DataView(new ArrayBuffer(12 + 4 * SAMPLES + 2 * marks.length));
  view.setUint32(0, stream, true);
  view.setUint32(4, number, true);
  view.setUint16(8, perMinute, true);
  view.setUint8(10, flags);
  view.setUint8(11, marks.length);
  for (let at = 0; at < SAMPLES; at += 1) {
    view.setInt16(12 + 2 * at, ecg(at), true);
    view.setInt16(12 + 2 * SAMPLES + 2 * at, pulse(at), true);
  }
  marks.forEach(([at, kind], place) => {
    view.setUint8(12 + 4 * SAMPLES + 2 * place, at);
    view.setUint8(12 + 4 * SAMPLES + 2 * place + 1, kind);
  });
  return view.buffer;
}

function batch(number, of = {}) {
  return batchOf(bytes({ number, ecg: (at) => number * 100 + at, pulse: () => number, ...of }));
}

function filled(count, of = {}) {
  const ring = new Ring();
  for (let number = 0; number < count; number += 1) ring.take(batch(number, of));
  return ring;
}

test("bytes are read as they were written, to the ends of their range", () => {
  const read = batchOf(bytes({ stream: 4_294_967_295, number: 4_000_000_000, perMinute: 65_535, flags: 1, ecg: (at) => (at % 2 ? -32_768 : 32_767), pulse: (at) => at }));
  assert.deepEqual([read.stream, read.number, read.perMinute, read.apart], [4_294_967_295, 4_000_000_000, 65_535, true]);
  assert.deepEqual(read.ecg.slice(0, 3), [32_767, -32_768, 32_767]);
  assert.deepEqual(read.pulse, Array.from({ length: 25 }, (_, at) => at));
  assert.equal(batchOf(bytes({ flags: 2 })).apart, false, "another flag is not this one");
});

test("each mark has its letters; a spike without a beat is told", () => {
  const kinds = [[0, "AP"], [1, "AS"], [2, "AR"], [3, "VP"], [4, "VS"], [5, "VR"]];
  const { marks } = batchOf(bytes({ number: 2, marks: [...kinds.map(([kind]) => [kind, kind]), [24, 0x83]] }));
  assert.deepEqual(marks.map((mark) => mark.letters), [...kinds.map(([, letters]) => letters), "VP"]);
  assert.deepEqual(marks.map((mark) => mark.pace), [true, false, false, true, false, false, true]);
  assert.deepEqual(marks.map((mark) => mark.lost), [false, false, false, false, false, false, true]);
  assert.deepEqual([marks[0].at, marks[6].at], [50, 74], "counted from the beginning of the strip");
});

test("what this page does not know, or what is cut short, is no batch", () => {
  assert.throws(() => batchOf(bytes({ marks: [[0, 6]] })), /does not know/);
  const whole = bytes({ marks: [[0, 0]] });
  for (const length of [0, 11, 12, 111, whole.byteLength - 1]) assert.throws(() => batchOf(whole.slice(0, length)), RangeError);
});

test("batches that follow one another join; a missing one is a gap and no line", () => {
  const ring = new Ring();
  [0, 1, 3].forEach((number) => ring.take(batch(number)));
  assert.deepEqual([ring.begin, ring.end], [0, 4 * SAMPLES]);
  assert.deepEqual([ring.ecg(24), ring.ecg(25), ring.pulse(25)], [24, 100, 1]);
  for (let at = 2 * SAMPLES; at < 3 * SAMPLES; at += 1) assert.deepEqual([ring.ecg(at), ring.pulse(at)], [GAP, GAP]);
  assert.deepEqual([ring.ecg(3 * SAMPLES), ring.ecg(4 * SAMPLES), ring.ecg(-1)], [300, GAP, GAP]);
});

test("a batch that stands apart is not joined to the one before", () => {
  const ring = new Ring();
  ring.take(batch(0));
  ring.take(batch(1, { flags: 1 }));
  assert.deepEqual([ring.ecg(24), ring.ecg(25), ring.ecg(26)], [24, GAP, 101]);
});

test("another patient, a step back, or a silence longer than is kept begins anew", () => {
  const far = 60 * HZ / SAMPLES;
  for (const next of [batch(2, { stream: 2 }), batch(0), batch(far)]) {
    const ring = filled(2, { marks: [[0, 3]] });
    ring.take(next);
    assert.equal(ring.begin, next.number * SAMPLES);
    assert.equal(ring.ecg(ring.begin - 1), GAP, "nothing of before stands there");
    assert.deepEqual([ring.ecg(ring.begin), ring.stream, ring.marks], [next.ecg[0], next.stream, []]);
  }
});

test("half a minute and a little more is kept, its marks with it, and nothing older", () => {
  const ring = filled(900, { marks: [[0, 4]] });
  const kept = ring.end - ring.begin;
  assert.ok(kept >= 30 * HZ && kept < 33 * HZ, `${kept} samples`);
  assert.equal(ring.ecg(ring.begin - 1), GAP);
  const first = Math.floor(ring.begin / SAMPLES);
  assert.equal(ring.ecg(ring.begin), (first * 100 + ring.begin % SAMPLES) << 16 >> 16);
  assert.ok(ring.marks.every((mark) => mark.at >= ring.begin));
  assert.equal(ring.marks.length, kept / SAMPLES);
});

test("a still picture stays as it was while the strip goes on", () => {
  const ring = filled(3);
  const still = ring.still();
  for (let number = 3; number < 900; number += 1) ring.take(batch(number));
  assert.deepEqual([still.end, still.ecg(0), still.ecg(74), still.perMinute], [75, 0, 224, 72]);
  assert.notEqual(ring.begin, still.begin);
});
