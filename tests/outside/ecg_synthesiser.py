#!/usr/bin/env python3
"""How many times real time the ECG synthesiser of a general library runs here: one line, the figure.

    pip install neurokit2==0.3.0
    python3 tests/outside/ecg_synthesiser.py

neurokit2's ecg_simulate, its default method (ecgsyn: McSharry PE, Clifford GD, Tarassenko L, Smith LA, IEEE Trans
Biomed Eng 2003;50(3):289-294), 60 s at 500 Hz and 72 a minute; processor time, the fastest of five after one to
warm up.
"""

import time
import warnings

warnings.filterwarnings("ignore")

import neurokit2  # noqa: E402

SECONDS = 60


def once(seed):
    began = time.process_time()
    signal = neurokit2.ecg_simulate(duration=SECONDS, sampling_rate=500, heart_rate=72, method="ecgsyn", random_state=seed)
    took = time.process_time() - began
    assert len(signal) == SECONDS * 500, len(signal)
    return took


once(0)
print(f"{SECONDS / min(once(seed) for seed in range(1, 6)):.1f}")
