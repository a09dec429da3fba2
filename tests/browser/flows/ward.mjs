// A tablet for one test: the real app with a data folder of its own, and a bed with one wire.
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { session } from "../driver.mjs";
import { Person } from "../person.mjs";

export const ROOT = fileURLToPath(new URL("../../..", import.meta.url));
const BUILT = join(process.env.CARGO_TARGET_DIR ?? join(ROOT, "target"), "debug");
const BINARY = join(BUILT, "holdfast");
export const TERMINAL = join(BUILT, "terminal");

/** A quiet night: own beats at 52/min, captured from 1.2 mA, a beat signal of 5.5 mV. */
export const QUIET = {
  heart: { own: 52, captures: 1.2, signal: 5.5 },
  found: { output: "6.0", rate: "80", mv: "2.0" },
};

const TIMES_FASTER = 6;

/** A new tablet; the folder goes with the test `t`. */
export async function tablet(t, { size = [800, 1280], timesFaster = TIMES_FASTER, trueTaps = false } = {}) {
  const folder = mkdtempSync(join(tmpdir(), "holdfast-flow-"));
  const ward = { folder, size, timesFaster, trueTaps, app: null };
  t.after(async () => {
    await ward.app?.close().catch((fault) => t.diagnostic(fault.message));
    rmSync(folder, { recursive: true, force: true });
  });
  await switchOn(ward);
  return ward;
}

/** Starts the app on the tablet's folder, first or again. */
export async function switchOn(ward) {
  ward.app = await another(ward);
  await ward.app.setSize(...ward.size);
  return ward.app;
}

/** One more window on the same folder. */
export function another({ folder, timesFaster, trueTaps = false, aheadDays = 0 }) {
  const clock = {
    HOLDFAST_TEST_CLOCK: String(timesFaster),
    HOLDFAST_TEST_AHEAD_DAYS: String(aheadDays),
    ...(trueTaps && { HOLDFAST_TEST_TRUE_TAPS: "1" }),
  };
  return session({ binary: BINARY, env: { HOLDFAST_DATA: folder, ...clock } });
}

/**
 * So long a person looks at a card, where the tablet's clock runs so many times faster: past the 300 ms in which a tap
 * counts as the second half of a double tap.
 */
export function pauseMs(timesFaster = TIMES_FASTER) {
  return Math.ceil(400 / timesFaster) + 20;
}

/** Somebody at this tablet. */
export function somebody({ app, timesFaster, trueTaps }, { heart, found } = QUIET) {
  const person = new Person(app, heart, found);
  person.pauseMs = pauseMs(trueTaps ? 1 : timesFaster);
  return person;
}

/** Goes from the first page to the first card of a check on a new wire. */
export async function admit(ward, patient = QUIET, { chamber = "ventricle" } = {}) {
  const person = somebody(ward, patient);
  await admitted(person, chamber);
  return person;
}

/** The same for a person who is there already. */
export async function admitted(person, chamber) {
  await admittedToBed(person, chamber);
  await person.tap("start-1");
}

/** Goes from the first page to a bed with one new wire. */
export async function admittedToBed(person, chamber) {
  await person.tap("welcomed");
  await newBed(person, "Bay 2", chamber);
}

/** Goes from the bed list to a new bed with one new wire. */
export async function newBed(person, label, chamber) {
  const { app } = person;
  await person.tap("add-bed");
  await app.press("#label");
  await app.keys(label);
  await person.tap("add");
  for (const choice of [`chamber:${chamber}`, "kind:epicardial", "polarity:bipolar", "generator:example-fine-current"]) {
    await app.click(choice);
  }
  await person.tap("add");
}
