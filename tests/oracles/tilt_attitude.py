"""Attitudes by scipy's Rotation: W3C Euler angles (intrinsic Z, X, Y) and
quaternions x, y, z, w, device -> world.

in:  {"euler": [[alpha, beta, gamma], ...], "quaternion": [[x, y, z, w], ...]}
out: {"euler": {...}, "quaternion": {...}}, each with "quaternion", "up"
     (world's up in the device frame) and "normal" (device z in the world).
"""
import json
import sys

from scipy.spatial.transform import Rotation


def view(rotation):
    return {
        "quaternion": rotation.as_quat().tolist(),
        "up": rotation.inv().apply([0.0, 0.0, 1.0]).tolist(),
        "normal": rotation.apply([0.0, 0.0, 1.0]).tolist(),
    }


given = json.load(sys.stdin)
json.dump(
    {
        "euler": view(Rotation.from_euler("ZXY", given["euler"], degrees=True)),
        "quaternion": view(Rotation.from_quat(given["quaternion"])),
    },
    sys.stdout,
)
