// Validates the kept FHIR bundle, and others named after it, with npm's `fhir` in the folder named: see fhir_bundle.py.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { resolve } from "node:path";

const { Fhir } = createRequire(resolve(process.argv[2], "x.js"))("fhir");
const kept = new URL("../../src-tauri/export/tests/kept/bundle.json", import.meta.url);
const bundle = JSON.parse(readFileSync(kept, "utf8"));
const isValid = (resource) => new Fhir().validate(resource).valid;

const first = (kind) => bundle.entry.map((entry) => entry.resource).find((one) => one.resourceType === kind);
const changed = (change) => {
  const other = structuredClone(first("Observation"));
  change(other);
  return other;
};
const act = (change) => {
  const other = structuredClone(first("Procedure"));
  change(other);
  return other;
};
const whole = (name, one) => [
  [`${name} is valid`, isValid(one)],
  [`every resource of ${name} is valid`, one.entry.every((entry) => isValid(entry.resource))],
];
const others = process.argv.slice(3).flatMap((name) => whole(name, JSON.parse(readFileSync(name, "utf8"))));
const results = {
  ...Object.fromEntries([...whole("the bundle", bundle), ...others]),
  "no status is caught": !isValid(changed((o) => delete o.status)),
  "a status that does not exist is caught": !isValid(changed((o) => (o.status = "done"))),
  "a procedure without a status is caught": !isValid(act((p) => delete p.status)),
  "a procedure without a subject is caught": !isValid(act((p) => delete p.subject)),
  "an unknown field is caught": !new Fhir().validate(changed((o) => (o.colour = "x")), { errorOnUnexpected: true }).valid,
};
for (const [name, holds] of Object.entries(results)) console.log((holds ? "holds   " : "FAILS   ") + name);
process.exit(Object.values(results).every(Boolean) ? 0 : 1);
