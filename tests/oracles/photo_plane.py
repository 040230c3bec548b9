"""Homographies and the poses of a small square by OpenCV."""
import json
import sys

import cv2
import numpy as np

asked = json.load(sys.stdin)
out = {"homographies": [], "poses": []}
for case in asked["homographies"]:
    h, _ = cv2.findHomography(np.array(case["from"]), np.array(case["to"]), 0)
    out["homographies"].append(h.tolist())
for case in asked["poses"]:
    side = case["side"] / 2
    square = np.array([[-side, side, 0], [side, side, 0], [side, -side, 0], [-side, -side, 0]])
    camera = np.array([[case["focal"], 0, case["centre"][0]], [0, case["focal"], case["centre"][1]], [0, 0, 1]])
    _, turns, shifts, errors = cv2.solvePnPGeneric(
        square, np.array(case["pixels"]), camera, None, flags=cv2.SOLVEPNP_IPPE_SQUARE
    )
    out["poses"].append(
        [
            {"axes": cv2.Rodrigues(r)[0].tolist(), "middle": t.ravel().tolist()}
            for r, t in zip(turns, shifts)
        ]
    )
json.dump(out, sys.stdout)
