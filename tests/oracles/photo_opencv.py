"""OpenCV on photos of mark cards: codes by its ArUco detector, crosses by
cornerSubPix, and what the detector alone takes on one thread.

in:  {"photos": [{"path": "...", "cards": [{"code": 0, "crosses": [[x, y] * 4]}]}],
      "repeats": 1}
     crosses: true places, pixels, first pixel's centre at (0, 0)
out: {"version": "...", "photos": [{"codes": [...],
      "off": [[dx, dy], ...], "decode_ms": ms, "detect_ms": ms}]}
     off: cornerSubPix less truth, crosses in the order given; started at the
     whole pixel next to the truth
"""
import json
import sys
import time

import cv2
import numpy as np

cv2.setNumThreads(1)
given = json.load(sys.stdin)
detector = cv2.aruco.ArucoDetector(
    cv2.aruco.getPredefinedDictionary(cv2.aruco.DICT_APRILTAG_36h11)
)


def middle(times):
    return sorted(times)[len(times) // 2] * 1e3


def photo(task):
    decode, detect = [], []
    for _ in range(given.get("repeats", 1)):
        started = time.perf_counter()
        # The orientation tag is applied, as in a gallery.
        grey = cv2.imread(task["path"], cv2.IMREAD_GRAYSCALE)
        decoded = time.perf_counter()
        _, codes, _ = detector.detectMarkers(grey)
        decode.append(decoded - started)
        detect.append(time.perf_counter() - decoded)
    off = []
    stop = (cv2.TERM_CRITERIA_EPS + cv2.TERM_CRITERIA_COUNT, 60, 1e-4)
    for card in task["cards"]:
        crosses = np.array(card["crosses"])
        # The window stays within the cells: 9 mm where crosses are 68 mm apart.
        sides = np.linalg.norm(crosses - np.roll(crosses, 1, axis=0), axis=1)
        half = int(np.clip(0.7 * 9.0 * sides.min() / 68.0, 2, 11))
        for cross in crosses:
            start = np.round(cross).astype(np.float32).reshape(1, 1, 2)
            found = cv2.cornerSubPix(grey, start, (half, half), (-1, -1), stop)
            off.append((found.reshape(2) - cross).tolist())
    return {
        "codes": [] if codes is None else sorted(int(code) for code in codes.ravel()),
        "off": off,
        "decode_ms": middle(decode),
        "detect_ms": middle(detect),
    }


json.dump(
    {"version": cv2.__version__, "photos": [photo(task) for task in given["photos"]]},
    sys.stdout,
)
