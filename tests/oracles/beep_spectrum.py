"""Spectra of sound by numpy and scipy.

In: samples, rate, tones (may be missing).
Out: densities, the one-sided density of the samples through a periodic Hann
window, padded to twice their length; at_tones, the size of the Fourier sum
at each tone, by the chirp z-transform.
"""

import json
import sys

import numpy as np
from scipy.signal import czt, get_window

asked = json.load(sys.stdin)
samples = np.asarray(asked["samples"], dtype=np.float32).astype(float)
rate = float(asked["rate"])
window = get_window("hann", len(samples))
spectrum = np.fft.rfft(samples * window, 2 * len(samples))
densities = 2 * np.abs(spectrum) ** 2 / (rate * np.sum(window**2))
at_tones = [
    float(np.abs(czt(samples, 1, 1, np.exp(2j * np.pi * tone / rate))[0]))
    for tone in asked.get("tones", [])
]
json.dump({"densities": densities.tolist(), "at_tones": at_tones}, sys.stdout)
