"""What heads see, written from the formulas alone, vectorised by numpy.

in:  {"plans": [{"heads": [{"x", "y", "z", "aim", "turn"}] (metres, degrees),
       "sensor": {"rated", "hertz", "across", "upright", "edge", "ringing"},
       "air": {"celsius", "humidity", "pascals"}, "target": "pole" | "wall" |
       "kerb" | "side" | {"ball": height} | {"wheel": [height, radius]},
       "columns": [...], "rows": [...]}], "repeats": n}
     columns and rows are middles of squares in metres: x and distance
     behind the bumper; for "side" distance behind and height.
out: {"plans": [{"levels": [[...]] a head, null without an echo, "clear":
      [[bool]] whether |D| > 0.001, "near": [bool]}], "seconds": [...]}
or   {"j1": [x, ...]} -> {"j1": [...], "directivity": [...]}
"""

import json
import sys
import time

import numpy as np
from scipy.special import j1

T0, TRIPLE, P0 = 293.15, 273.16, 101325.0
POLE = 0.0375
BALL = 0.025


def sound(celsius):
    return 343.2 * np.sqrt((celsius + 273.15) / T0)


def absorption(f, celsius, humidity, pascals):
    T = celsius + 273.15
    p = pascals / P0
    h = humidity * 10 ** (-6.8346 * (TRIPLE / T) ** 1.261 + 4.6151) / p
    fro = p * (24 + 4.04e4 * h * (0.02 + h) / (0.391 + h))
    frn = p * (T / T0) ** -0.5 * (9 + 280 * h * np.exp(-4.170 * ((T / T0) ** (-1 / 3) - 1)))
    return 8.686 * f**2 * (
        1.84e-11 / p * (T / T0) ** 0.5
        + (T / T0) ** -2.5
        * (
            0.01275 * np.exp(-2239.1 / T) / (fro + f**2 / fro)
            + 0.1068 * np.exp(-3352.0 / T) / (frn + f**2 / frn)
        )
    )


def piston(x):
    safe = np.where(x == 0, 1.0, x)
    return np.where(x == 0, 1.0, 2 * j1(safe) / safe)


def geometry(target, head, grid_a, grid_b):
    """Vectors to the body's middle, its radii, what is taken off."""
    zero = np.zeros_like(grid_a)
    x, y, z = head["x"], head["y"], head["z"]
    if target == "pole":
        return (grid_a - x, -grid_b - y, zero), POLE, (POLE, None), 0.0
    if target == "side":
        return (zero, -grid_a - y, grid_b - z), POLE, (POLE, None), 0.0
    if target == "wall":
        return (zero, -grid_b - y, zero), 0.0, (None, None), 0.0
    if target == "kerb":
        return (zero, -grid_b - y, zero - z), 0.0, (None, None), 15.0
    if "ball" in target:
        return (grid_a - x, -grid_b - y, zero + target["ball"] - z), BALL, (BALL, BALL), 0.0
    height, radius = target["wheel"]
    return (grid_a - x, -grid_b - y, zero + height - z), radius, (radius, None), 0.0


def levels(plan, grid_a, grid_b):
    s, air = plan["sensor"], plan["air"]
    c_ref = sound(20.0)
    radius = lambda width: s["edge"] / (2 * np.pi * s["hertz"] / c_ref * np.sin(np.radians(width) / 2))
    a_h, a_v = radius(s["across"]), radius(s["upright"])
    alpha_ref = absorption(s["hertz"], 20.0, 50.0, P0)
    r0 = s["rated"] - POLE
    C = 20 * np.log10(2 * r0) - 10 * np.log10(POLE / (POLE + r0)) + 2 * alpha_ref * r0
    c = sound(air["celsius"])
    k = 2 * np.pi * s["hertz"] / c
    alpha = absorption(s["hertz"], air["celsius"], air["humidity"], air["pascals"])
    near = c * s["ringing"] / 2
    found = []
    for head in plan["heads"]:
        aim, turn = np.radians(head["aim"]), np.radians(head["turn"])
        a = np.array([np.cos(aim) * np.sin(turn), -np.cos(aim) * np.cos(turn), np.sin(aim)])
        h = np.array([np.cos(turn), np.sin(turn), 0.0])
        v = np.cross(a, h)
        to, inside, radii, loss = geometry(plan["target"], head, grid_a, grid_b)
        distance = np.sqrt(to[0] ** 2 + to[1] ** 2 + to[2] ** 2)
        r = np.maximum(distance - inside, 1e-3)
        along = lambda n: (to[0] * n[0] + to[1] * n[1] + to[2] * n[2]) / distance
        D = piston(k * np.hypot(a_h * along(h), a_v * along(v)))
        L = 40 * np.log10(np.maximum(np.abs(D), 1e-3)) - 20 * np.log10(2 * r) - 2 * alpha * r + C - loss
        for R in radii:
            if R is not None:
                L = L + 10 * np.log10(R / (R + r))
        found.append((np.where(along(a) > 0, L, np.nan), np.abs(D) > 1e-3, r < near))
    return found


def best(plan, grid_a, grid_b):
    """The picture: the greatest level and its head."""
    stack = np.stack([np.nan_to_num(one[0], nan=-999.0) for one in levels(plan, grid_a, grid_b)])
    return stack.max(axis=0), stack.argmax(axis=0)


given = json.load(sys.stdin)
if "j1" in given:
    x = np.array(given["j1"])
    json.dump({"j1": j1(x).tolist(), "directivity": piston(x).tolist()}, sys.stdout)
    sys.exit()
out, seconds = [], []
for plan in given["plans"]:
    grid_a, grid_b = np.meshgrid(plan["columns"], plan["rows"])
    found = levels(plan, grid_a, grid_b)
    out.append({
        "levels": [[None if np.isnan(v) else v for v in one[0].ravel().tolist()] for one in found],
        "clear": [one[1].ravel().tolist() for one in found],
        "near": np.any([one[2] for one in found], axis=0).ravel().tolist(),
    })
for _ in range(given.get("repeats", 0)):
    plan = given["plans"][0]
    grid_a, grid_b = np.meshgrid(plan["columns"], plan["rows"])
    start = time.perf_counter()
    best(plan, grid_a, grid_b)
    seconds.append(time.perf_counter() - start)
if given.get("only_time"):
    out = []
json.dump({"plans": out, "seconds": seconds}, sys.stdout)
