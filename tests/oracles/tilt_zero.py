"""Zeroing, whole chain and linearised bound, by numpy and scipy.

The estimator here is written apart from the app's: each wall pose has a
free in-plane angle of its own and the residuals are the two tangential
ones on the sphere, solved for all jobs at once by Gauss-Newton; scipy's
least_squares solves the first jobs again. The bound is that of the same
model, linearised at the true phone: offsets, scales, seats, lean, slopes
and half turn with their true standard deviations as priors, seating as
two unknown angles a pose, u_length as noise of each of the chip's figures.

in:  {"kind": "raw" | "normalised", "seating": degrees (one, or one a job),
      "u_length": g, "prior": {...}, "truth": {...}, "rake": degrees,
      "which": places of the poses in the order of the guide,
      "jobs": [{"poses": [[x, y, z] in g, ...],
                "phone": {"offset": [3], "scale": [3], "back": [2], "screen": [2]},
                "board": [[3], [3]], "readings": [[3], ...], "turn": degrees}]}
      prior and truth: standard deviations offset (g), scale, seat,
      surface, half_turn (degrees); truth has repeat (degrees) too.
out: {"error": [degrees], "bound": [degrees], "exact": [degrees, the bound
      of a chip whose lengths are exact], "scipy": [degrees, first jobs],
      "chain": [degrees], where the jobs have readings}
"""
import json
import sys

import numpy as np
from scipy.optimize import least_squares

D = np.pi / 180.0
SCIPY_JOBS = 8
WALLS = 4


def unit(v):
    return v / np.linalg.norm(v, axis=-1, keepdims=True)


def seat_normal(xy):
    return unit(np.concatenate([xy, np.ones(xy.shape[:-1] + (1,))], axis=-1))


def dot(a, b):
    return np.sum(a * b, axis=-1)


def across(n):
    y = np.zeros_like(n)
    y[..., 1] = 1.0
    top = unit(y - dot(y, n)[..., None] * n)
    return np.cross(top, n), top


def correct(x, a, kind):
    """Corrected vector of figures a (jobs x 3) by unknowns x (jobs x n)."""
    b, s = x[..., 0:3], 1.0 + x[..., 3:6]
    if kind == "raw":
        return (a - b) / s
    p, q = a / s, b / s
    pp, pq, qq = dot(p, p), dot(p, q), dot(q, q)
    k = (pq + np.sqrt(pq * pq - pp * (qq - 1.0))) / pp
    return k[..., None] * p - q


# Unknowns: offset 3, scale 3, back 2, screen 2, lean, slope 2, half turn,
# then an in-plane angle for each wall pose.
PHONE, LEAN, SLOPE, HALF, PLANE = 10, 10, 11, 13, 14


def predicted(x, pose, landing=None):
    """True up of a pose; landing: two small angles of the seat."""
    xy = x[..., 8:10] if pose in (2, 3) else x[..., 6:8]
    n = seat_normal(xy)
    if landing is not None:
        right, top = across(n)
        n = unit(n + landing[..., 0:1] * right + landing[..., 1:2] * top)
    right, top = across(n)
    if pose < 4:
        sign = -1.0 if pose in (2, 3) else 1.0
        lean = sign * x[..., LEAN : LEAN + 1]
        angle = x[..., PLANE + pose : PLANE + pose + 1] + (np.pi if pose in (1, 3) else 0.0)
        return np.sin(lean) * n + np.cos(lean) * (np.sin(angle) * right + np.cos(angle) * top)
    p, q = x[..., SLOPE : SLOPE + 1], x[..., SLOPE + 1 : SLOPE + 2]
    turn = (np.pi + x[..., HALF : HALF + 1]) if pose == 5 else 0.0 * p
    s, c = np.sin(turn), np.cos(turn)
    return np.sqrt(1 - p * p - q * q) * n + (c * p - s * q) * right + (s * p + c * q) * top


def residuals(x, poses, kind, seating, u_length):
    out = []
    for i, pose in enumerate(WHICH):
        v = correct(x, poses[:, i], kind)
        u = unit(v)
        want = predicted(x, pose)
        right, top = across_any(want)
        out.append(dot(u - want, right) / seating)
        out.append(dot(u - want, top) / seating)
        if kind == "raw":
            out.append((np.linalg.norm(v, axis=-1) - 1.0) / u_length)
    return np.stack(out, axis=-1)


def across_any(v):
    helper = np.where(np.abs(v[..., 2:3]) < 0.7, [0.0, 0.0, 1.0], [0.0, 1.0, 0.0])
    first = unit(helper - dot(helper, v)[..., None] * v)
    return first, np.cross(v, first)


def prior_sds(p, count):
    seat, surface = p["seat"] * D, p["surface"] * D
    base = [p["offset"]] * 3 + [p["scale"]] * 3 + [seat] * 4 + [surface] * 3 + [p["half_turn"] * D]
    return np.array(base + [1.0] * count)  # count in-plane angles


def solve(poses, kind, seating, u_length, prior):
    walls = WALLS
    sds = prior_sds(prior, walls)
    n = len(sds)
    x = np.zeros((len(poses), n))
    res = lambda z: residuals(z, poses, kind, seating, u_length)
    for _ in range(8):
        here = res(x)
        jac = np.empty(here.shape + (n,))
        for i in range(n):
            moved = x.copy()
            moved[:, i] += 1e-6
            jac[..., i] = (res(moved) - here) / 1e-6
        normal = np.einsum("jri,jrk->jik", jac, jac) + np.diag(1 / sds**2)
        right = -np.einsum("jri,jr->ji", jac, here) - x / sds**2
        x = x + np.linalg.solve(normal, right[..., None])[..., 0]
    return x


def solve_scipy(poses, kind, seating, u_length, prior):
    sds = prior_sds(prior, WALLS)

    def full(z):
        r = residuals(z[None], poses[None], kind, seating, u_length)[0]
        return np.concatenate([r, z / sds])
    return least_squares(full, np.zeros(len(sds)), xtol=1e-14, ftol=1e-14, gtol=1e-14).x


def truth_of(jobs, count):
    x = np.zeros((len(jobs), PLANE + count))
    for row, job in zip(x, jobs):
        phone = job["phone"]
        row[0:3] = phone["offset"]
        row[3:6] = np.array(phone["scale"]) - 1.0
        row[6:8], row[8:10] = phone["back"], phone["screen"]
    return x


def source(x, up, kind):
    a = (1.0 + x[..., 3:6]) * up + x[..., 0:3]
    return a if kind == "raw" else unit(a)


def rake_of(x, a, kind):
    u = unit(correct(x, a, kind))
    return np.arcsin(np.clip(dot(u, seat_normal(x[..., 6:8])), -1, 1)) / D


def face_up(x, rake):
    n = seat_normal(x[..., 6:8])
    _, top = across(n)
    return np.sin(rake * D) * n + np.cos(rake * D) * top


def bound(truth, kind, count, sds_truth, rake, noise):
    """Standard deviation of the face angle, linearised at the truth."""
    walls = WALLS
    sds = np.concatenate([
        prior_sds(sds_truth, walls),
        np.full(2 * count, sds_truth["repeat"] * D),
    ])
    base = np.concatenate([truth, np.zeros((len(truth), 2 * count))], axis=1)
    n = base.shape[1]
    def seen(z):
        k = PLANE + walls
        rows = [
            source(z, predicted(z, pose, z[:, k + 2 * i : k + 2 * i + 2]), kind)
            for i, pose in enumerate(WHICH)
        ]
        return np.concatenate(rows, axis=-1)
    a = source(base, face_up(base, rake), kind)
    slopes = np.empty((len(base), 3 * count, n))
    out = np.zeros((len(base), n))
    for i in range(n):
        step = 1e-6
        up, down = base.copy(), base.copy()
        up[:, i] += step
        down[:, i] -= step
        slopes[..., i] = (seen(up) - seen(down)) / (2 * step)
        out[:, i] = (rake_of(up, a, kind) - rake_of(down, a, kind)) / (2 * step)
    # In units of the priors, so that the matrices stay well conditioned:
    # posterior = I - H' (H H' + noise²)^-1 H.
    h = slopes * sds
    g = out * sds
    inner = np.einsum("jai,jbi->jab", h, h) + noise**2 * np.eye(h.shape[1])
    hg = np.einsum("jai,ji->ja", h, g)
    left = dot(g, g) - dot(hg, np.linalg.solve(inner, hg[..., None])[..., 0])
    return np.sqrt(np.maximum(left, 0.0))


def chain(x, jobs, kind):
    boards = np.array([job["board"] for job in jobs])
    readings = np.array([job["readings"] for job in jobs])
    turn = np.array([job["turn"] for job in jobs]) * D
    half = (boards[:, 0] - boards[:, 1]) / 2.0
    right, forward = half[:, 0], half[:, 1]
    rakes = [rake_of(x, readings[:, i], kind) for i in range(readings.shape[1])]
    m = np.sin(np.mean(rakes, axis=0) * D)
    a = np.sqrt(1 - right**2 - forward**2)
    b = -np.cos(turn) * forward + np.sin(turn) * right
    return (np.arcsin(m / np.hypot(a, b)) - np.arctan2(b, a)) / D


given = json.load(sys.stdin)
WHICH = given["which"]
kind, jobs = given["kind"], given["jobs"]
poses = np.array([job["poses"] for job in jobs])
seating = np.broadcast_to(np.array(given["seating"]) * D, (len(jobs),))
found = solve(poses, kind, seating, given["u_length"], given["prior"])
answer = {}
if "rake" in given:
    truth = truth_of(jobs, WALLS)
    a = source(truth, face_up(truth, given["rake"]), kind)
    answer["error"] = (rake_of(found, a, kind) - given["rake"]).tolist()
    again = [
        rake_of(solve_scipy(p, kind, s, given["u_length"], given["prior"]), a[i], kind) - given["rake"]
        for i, (p, s) in enumerate(zip(poses[:SCIPY_JOBS], seating))
    ]
    answer["scipy"] = [float(v) for v in again]
    answer["bound"] = bound(truth, kind, poses.shape[1], given["truth"], given["rake"], given["u_length"]).tolist()
    answer["exact"] = bound(truth, kind, poses.shape[1], given["truth"], given["rake"], 1e-6).tolist()
if "readings" in jobs[0]:
    answer["chain"] = chain(found, jobs, kind).tolist()
json.dump(answer, sys.stdout)
