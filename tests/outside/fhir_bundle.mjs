// Validates the kept FHIR bundle with npm's `fhir` in the folder named: see fhir_bundle.py.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { resolve } from "node:path";

const { Fhir } = createRequire(resolve(process.argv[2], "x.js"))("fhir");
const kept = new URL("../../src-tauri/export/tests/kept/bundle.json", import.meta.url);
const bundle = JSON.parse(readFileSync(kept, "utf8"));
const isValid = (resource) => new Fhir().validate(resource).valid;

const changed = (change) => {
  const other = structuredClone(bundle.entry[0].resource);
  change(other);
  return other;
};
const results = {
  "the bundle is valid": isValid(bundle),
  "every observation is valid": bundle.entry.every((entry) => isValid(entry.resource)),
  "no status is caught": !isValid(changed((o) => delete o.status)),
  "a status that does not exist is caught": !isValid(changed((o) => (o.status = "done"))),
  "an unknown field is caught": !new Fhir().validate(changed((o) => (o.colour = "x")), { errorOnUnexpected: true }).valid,
};
for (const [name, holds] of Object.entries(results)) console.log((holds ? "holds   " : "FAILS   ") + name);
process.exit(Object.values(results).every(Boolean) ? 0 : 1);
