"""Several vehicles as one: Paule and Mandel's spread and mean by root finding,
and what the next vehicle is expected to be by numerical integration over the
spread with a half-normal prior. Faces of one bumper deviate together
(correlation 0.5), so their likelihoods are weighted.

Standard input: `{"scale": s, "models": [[[[y, u], ...], ...], ...]}`, a model
being its spots, a spot its vehicles. Standard output: for every model
`{"mean": [...], "between": [...], "value": [...], "u": [...]}`.
"""

import json
import sys

import numpy as np
from scipy.integrate import quad
from scipy.optimize import brentq


def mean_at(y, v, square):
    weights = 1.0 / (v + square)
    return np.average(y, weights=weights), weights.sum()


def paule_mandel(y, v):
    def excess(square):
        mean, _ = mean_at(y, v, square)
        return ((y - mean) ** 2 / (v + square)).sum() - (len(y) - 1)

    if len(y) < 2 or excess(0.0) <= 0:
        return 0.0
    return brentq(excess, 0.0, 1e4, xtol=1e-14, rtol=1e-14)


def log_likelihood(spots, tau):
    total = 0.0
    for y, v in spots:
        if len(y) < 2:
            continue
        mean, weight = mean_at(y, v, tau**2)
        total -= 0.5 * (((y - mean) ** 2 / (v + tau**2)) + np.log(v + tau**2)).sum()
        total -= 0.5 * np.log(weight)
    telling = sum(len(y) > 1 for y, _ in spots)
    return total / (1 + 0.5**2 * max(telling - 1, 0))


def next_vehicle(spots, scale):
    grid = np.linspace(1e-9, 5 * scale, 400)
    top = max(log_likelihood(spots, t) - 0.5 * (t / scale) ** 2 for t in grid)

    def share(tau):
        return np.exp(log_likelihood(spots, tau) - 0.5 * (tau / scale) ** 2 - top)

    def over(f):
        return quad(lambda t: share(t) * f(t), 0, 5 * scale, limit=400, epsabs=1e-11)[0]

    whole = over(lambda t: 1.0)
    values, us = [], []
    for y, v in spots:
        value = over(lambda t: mean_at(y, v, t * t)[0]) / whole

        def square(t):
            mean, weight = mean_at(y, v, t * t)
            return t * t + 1.0 / weight + (mean - value) ** 2

        values.append(value)
        us.append((over(square) / whole) ** 0.5)
    return values, us


def main():
    asked = json.load(sys.stdin)
    answers = []
    for model in asked["models"]:
        spots = [
            (np.array([p[0] for p in spot]), np.array([p[1] for p in spot]) ** 2)
            for spot in model
        ]
        betweens = [paule_mandel(y, v) for y, v in spots]
        means = [mean_at(y, v, t)[0] for (y, v), t in zip(spots, betweens)]
        values, us = next_vehicle(spots, asked["scale"])
        answers.append(
            {
                "mean": means,
                "between": [t**0.5 for t in betweens],
                "value": values,
                "u": us,
            }
        )
    json.dump(answers, sys.stdout)


main()
