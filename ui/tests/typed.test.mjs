// Typed positions, running clocks and when an event was made.
import assert from "node:assert/strict";
import test from "node:test";
import { read } from "./read.mjs";

const { append, erase, filtered } = await read("digits.ts");
const { elapsed, runningFrom } = await read("time.ts");
const { Stamps } = await read("stamps.ts");

test("of what is typed, digits and the first point stay, and no more than fit", () => {
  const kept = [
    ["3.6", "3.6"], ["3,6", "3.6"], ["3.6.1", "3.61"], ["3,6,1", "3.61"], [",5", ".5"], ["..", "."],
    [" 8 0 ", "80"], ["-8e1", "81"], ["１２", ""], ["mA", ""], ["", ""], ["123456", "12345"], ["1234.6", "1234."],
  ];
  for (const [typed, stays] of kept) assert.equal(filtered(typed, 5), stays, typed);
});

test("a key adds at the end, and erasing takes from there", () => {
  assert.equal(append("3.", "6"), "3.6");
  assert.equal(erase("3.6"), "3.");
  assert.equal(erase(""), "");
});

test("what has passed is told in whole seconds, hours only once there are any, never below zero", () => {
  const told = [
    [-5_000, "0:00"], [0, "0:00"], [999, "0:00"], [1_000, "0:01"], [42_000, "0:42"], [59_999, "0:59"],
    [60_000, "1:00"], [725_000, "12:05"], [3_599_999, "59:59"], [3_600_000, "1:00:00"], [3_609_000, "1:00:09"],
    [90_061_000, "25:01:01"],
  ];
  for (const [ms, text] of told) assert.equal(elapsed(ms), text, `${ms} ms`);
});

test("session time runs on from the instant that a view brought", async () => {
  const now = runningFrom(5_000);
  const first = now();
  assert.ok(first >= 5_000 && first < 6_000, `${first}`);
  await new Promise((done) => setTimeout(done, 30));
  assert.ok(now() >= first + 25, `${now() - first} ms went by`);
});

test("an event was made before it was handled, from whatever instant its stamps count", () => {
  for (const ahead of [0, 276, -90_000]) {
    const stamps = new Stamps();
    const madeAt = (made, delay) => stamps.madeAt(made + ahead, made + delay);
    assert.equal(madeAt(1_000, 4), 1_004, "of the first nothing else is known");
    assert.equal(madeAt(1_080, 1), 1_081);
    assert.equal(madeAt(1_200, 300), 1_201, "one that had to wait");
  }
});

test("a clock that was set is made out after sixteen events", () => {
  const stamps = new Stamps();
  for (let made = 0; made < 2_000; made += 100) stamps.madeAt(made, made + 1);
  const later = Array.from({ length: 17 }, (_, count) => 10_000 + count * 100);
  assert.equal(later.map((made) => stamps.madeAt(made - 5_000, made) - made).filter((apart) => apart !== 0).length, 15);
});
