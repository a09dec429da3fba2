"""Makes src-tauri/domain/tests/trend/series.json: random series and what scipy.stats.theilslopes says of them.

    pip install scipy==1.17.1 numpy==2.4.6
    python tests/outside/theil_sen.py

The seed is fixed, so a second run with the same versions changes nothing. Values look like thresholds on a dial:
steps of 100 micro-units, so that there are ties; times in minutes, now and then twice the same.
"""

import json
import pathlib

import numpy
import scipy
from scipy.stats import theilslopes

FILE = pathlib.Path(__file__).parents[2] / "src-tauri/domain/tests/trend/series.json"
SEED = 20261125
SERIES = 160


def series(chance: numpy.random.Generator) -> dict:
    count = int(chance.integers(2, 41))
    gaps = chance.integers(0 if count > 4 else 1, 1500, count)
    minutes = numpy.cumsum(gaps) + 29_000_000
    rise = chance.normal(0, 2)
    values = 1200 + rise * numpy.arange(count) * 100 + chance.normal(0, 300, count)
    values = (numpy.round(values / 100) * 100).astype(int)
    if chance.random() < 0.2:
        values[int(chance.integers(0, count))] = 9900
    slope, _, low, high = theilslopes(values, minutes, alpha=0.95)
    return {
        "minutes": minutes.tolist(),
        "values": values.tolist(),
        "slope": float(slope),
        "low": float(low),
        "high": float(high),
    }


def main() -> None:
    chance = numpy.random.default_rng(SEED)
    made = {"scipy": scipy.__version__, "numpy": numpy.__version__, "seed": SEED}
    rows = ",\n".join(json.dumps(series(chance)) for _ in range(SERIES))
    head = json.dumps(made)[1:-1]
    FILE.write_text("{" + head + ',"series": [\n' + rows + "\n]}\n")


if __name__ == "__main__":
    main()
