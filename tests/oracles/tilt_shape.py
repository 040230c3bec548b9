"""Shape from above by scipy's monotone cubic and adaptive quadrature.

in:  {"along": [...], "turn": [...], "at": [...]}
out: {"straight": [...], "forward": [...]}
"""
import json
import sys

import numpy as np
from scipy.integrate import quad
from scipy.interpolate import PchipInterpolator

given = json.load(sys.stdin)
curve = PchipInterpolator(given["along"], given["turn"])
low, high = given["along"][0], given["along"][-1]
turn = lambda s: np.radians(curve(np.clip(s, low, high)))
inner = [s for s in given["along"]]


def integral(f, to):
    points = [s for s in inner if min(0, to) < s < max(0, to)]
    return quad(f, 0.0, to, points=points or None, limit=400, epsabs=1e-10, epsrel=1e-12)[0]


json.dump(
    {
        "straight": [integral(lambda s: np.cos(turn(s)), to) for to in given["at"]],
        "forward": [integral(lambda s: np.sin(turn(s)), to) for to in given["at"]],
    },
    sys.stdout,
)
