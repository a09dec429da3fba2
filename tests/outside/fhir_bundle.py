"""Validates the kept FHIR bundle, and others named, with libraries of other origin, and that each catches what it should.

    pip install fhir.resources==8.3.0 ucumvert==0.3.2
    python tests/outside/fhir_bundle.py target/tmp/exported/*/bundle.json

Those are written by `cargo test -p terminal exported`: rehearsed checks, exported by the terminal.
The second validator is npm's `fhir` 4.12.0 (`npm install --no-save fhir@4.12.0` in a folder of your own, then
`node tests/outside/fhir_bundle.mjs THAT_FOLDER target/tmp/exported/*/bundle.json`): the Python one misses bad codes, the other bad dates.
Not part of `make test`: they need packages of their own.
"""

import copy
import json
import pathlib
import sys

from fhir.resources.R4B.bundle import Bundle
from pydantic import ValidationError
from ucumvert import get_ucum_parser

KEPT = pathlib.Path(__file__).parents[2] / "src-tauri/export/tests/kept/bundle.json"


def is_valid(bundle: dict) -> bool:
    try:
        Bundle.model_validate(bundle)
    except ValidationError:
        return False
    return True


def changed(bundle: dict, change, kind: str = "Observation") -> dict:
    other = copy.deepcopy(bundle)
    resources = (entry["resource"] for entry in other["entry"])
    change(next(one for one in resources if one["resourceType"] == kind))
    return other


def units(value) -> set[str]:
    if isinstance(value, dict):
        own = {value["code"]} if value.get("system") == "http://unitsofmeasure.org" else set()
        return own.union(*(units(part) for part in value.values()))
    if isinstance(value, list):
        return set().union(*(units(part) for part in value))
    return set()


def main() -> int:
    bundle = json.loads(KEPT.read_text())
    bad = {
        "no status": changed(bundle, lambda o: o.pop("status")),
        "a bad date": changed(bundle, lambda o: o.update(effectiveDateTime="2026-13-01")),
        "two values": changed(bundle, lambda o: o["component"][1].update(valueString="x")),
        "text for a figure": changed(bundle, lambda o: o["component"][1]["valueQuantity"].update(value="x")),
        "an unknown field": changed(bundle, lambda o: o.update(colour="x")),
        "a procedure without a subject": changed(bundle, lambda p: p.pop("subject"), "Procedure"),
        "a procedure without a status": changed(bundle, lambda p: p.pop("status"), "Procedure"),
    }
    parser = get_ucum_parser()
    results = {"the bundle is valid": is_valid(bundle)}
    results |= {f"{name} is caught": not is_valid(other) for name, other in bad.items()}
    others = {name: json.loads(pathlib.Path(name).read_text()) for name in sys.argv[1:]}
    results |= {f"{name} is valid": is_valid(other) for name, other in others.items()}
    used = units(bundle).union(*map(units, others.values()))
    results |= {f"unit {unit} is UCUM": bool(parser.parse(unit)) for unit in sorted(used)}
    for name, holds in results.items():
        print(("holds   " if holds else "FAILS   ") + name)
    return 0 if all(results.values()) else 1


if __name__ == "__main__":
    sys.exit(main())
