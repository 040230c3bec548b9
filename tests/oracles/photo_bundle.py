"""The bundle of cards and photos a second time, by scipy's least squares.

Input: cameras (priors), bends (priors), sights, a start (poses), the loss's
scale. Output: half the sum of the losses at the least cost, and the tips."""
import json
import sys

import numpy as np
from scipy.optimize import least_squares
from scipy.spatial.transform import Rotation

task = json.load(sys.stdin)
cameras = np.array(task["cameras"])  # ln f, cx, cy, k1, then their u
bends = np.array(task["bends"])  # value, u
sights = task["sights"]
photo_of = np.array([s["photo"] for s in sights])
card_of = np.array([s["card"] for s in sights])
seen = np.array([s["crosses"] for s in sights])  # sight, cross, (x, y, u)
prints = np.array(task["prints"])
tip = np.array(task["tip"])
scale = task["loss"]
photo_turns = np.array(task["photo_turns"])
card_turns = np.array(task["card_turns"])
photos, cards = len(cameras), len(bends)
start = np.concatenate(
    [np.zeros((photos, 3)), np.array(task["photo_shifts"]), np.array(task["photo_cameras"])], axis=1
)
start_cards = np.concatenate(
    [np.zeros((cards, 3)), np.array(task["card_tips"]), np.array(task["card_bends"])[:, None]], axis=1
)
UNIT_PHOTO = np.array([1e-3] * 3 + [1.0] * 3 + [1e-2, 10.0, 10.0, 1e-2])
UNIT_CARD = np.array([1e-2] * 3 + [1.0] * 3 + [1e-4])


def unpack(x):
    p = start + np.concatenate([np.zeros(6), x[: 10 * photos - 6]]).reshape(photos, 10) * UNIT_PHOTO
    c = start_cards + x[10 * photos - 6 :].reshape(cards, 7) * UNIT_CARD
    return p, c


def left(x):
    p, c = unpack(x)
    turn_p = Rotation.from_rotvec(p[:, :3]).as_matrix() @ photo_turns
    turn_c = Rotation.from_rotvec(c[:, :3]).as_matrix() @ card_turns
    b = c[card_of, 6][:, None]
    local = np.stack(
        [
            np.sin(b * prints[:, 0]) / b,
            np.broadcast_to(prints[:, 1] - tip[1], (len(sights), 4)),
            -(1 - np.cos(b * prints[:, 0])) / b,
        ],
        axis=-1,
    )
    world = np.einsum("sij,skj->ski", turn_c[card_of], local) + c[card_of, 3:6][:, None, :]
    q = np.einsum("sij,skj->ski", turn_p[photo_of], world) + p[photo_of, 3:6][:, None, :]
    m = q[..., :2] / q[..., 2:]
    k = p[photo_of]
    bent = 1 + k[:, 9][:, None, None] * (m**2).sum(-1, keepdims=True)
    at = k[:, 7:9][:, None, :] + np.exp(k[:, 6])[:, None, None] * bent * m
    r = (at - seen[..., :2]) / seen[..., 2:]
    square = (r**2).sum(-1, keepdims=True)
    c2 = scale * scale
    loss = c2 * np.log1p(square / c2)
    r = r * np.sqrt(loss / np.maximum(square, 1e-300))
    prior = (p[:, 6:] - cameras[:, :4]) / cameras[:, 4:]
    bend = (c[:, 6] - bends[:, 0]) / bends[:, 1]
    return np.concatenate([r.ravel(), prior.ravel(), bend])


x0 = np.zeros(10 * photos - 6 + 7 * cards)
rng = np.random.default_rng(3)
x0 += 0.05 * rng.standard_normal(len(x0))
found = least_squares(left, x0, method="trf", jac="3-point", xtol=1e-15, ftol=1e-15, gtol=1e-12, max_nfev=300)
_, c = unpack(found.x)
json.dump({"cost": found.cost, "tips": c[:, 3:6].tolist()}, sys.stdout)
