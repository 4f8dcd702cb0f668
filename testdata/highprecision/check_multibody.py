#!/usr/bin/python3
"""Solves the chains of a multibody CSV file at 60 digits and tells how far the file is from it.

    check_multibody.py FILE ROTATION_TOLERANCE_RAD TOLERANCE

Ratio and acceleration are compared in units of their largest value on that shaft, but at least 1. Exits with 1 if a
difference is over its tolerance.
"""

import csv
import sys
from itertools import groupby

from mpmath import fabs, mpf

from cardan import Chain, degrees_exact


def main(path, rotation_tolerance, tolerance):
    worst = [mpf(0)] * 3
    with open(path, newline="") as file:
        for _, rows in groupby(csv.DictReader(file), key=lambda row: row["case"]):
            differences = case_differences(list(rows))
            worst = [max(a, b) for a, b in zip(worst, differences)]
    print(f"{path}: rotation {float(worst[0]):.1e} rad, ratio {float(worst[1]):.1e}, accel {float(worst[2]):.1e}")
    return 0 if worst[0] <= rotation_tolerance and max(worst[1:]) <= tolerance else 1


def case_differences(rows):
    """Largest difference of rotation (rad), ratio and acceleration over the positions and shafts of one case."""
    down, right, phase = (numbers(rows[0][key]) for key in ("down_deg", "right_deg", "phase_deg"))
    chain = Chain(down, right, [0, *phase, 0])
    at_zero = chain.raw_motion(mpf(0))
    found = [[], [], []]
    scale = {}
    for row in rows:
        shaft = int(row["shaft"]) - 1
        theta = degrees_exact(row["theta_deg"])
        lead, ratio, accel = chain.raw_motion(theta)[shaft]
        found[0].append((shaft, degrees_exact(row["rotation_deg"]) - (theta + lead - at_zero[shaft][0])))
        found[1].append((shaft, mpf(row["ratio"]) - ratio))
        found[2].append((shaft, mpf(row["accel_per_speed2"]) - accel))
        scale[shaft, 1] = max(scale.get((shaft, 1), mpf(1)), fabs(ratio))
        scale[shaft, 2] = max(scale.get((shaft, 2), mpf(1)), fabs(accel))
    return [max(fabs(d) / scale.get((shaft, i), 1) for shaft, d in found[i]) for i in range(3)]


def numbers(text):
    return [float(x) for x in text.split(";") if x]


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], mpf(sys.argv[2]), mpf(sys.argv[3])))
