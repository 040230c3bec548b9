"""Chance that a normal value lies below zero, by scipy.

In:  [[value, standard uncertainty], ...]
Out: [chance, ...]
"""

import json
import sys

from scipy.stats import norm

given = json.load(sys.stdin)
json.dump([float(norm.cdf(0.0, value, u)) for value, u in given], sys.stdout)
