#!/usr/bin/python3
"""Lead, ratio and acceleration of every shaft by vectorised NumPy: how fast, and how exact in doubles.

    speed.py            prints the best time per joint and position, for 1, 3 and 8 joints at 720 positions
    speed.py --check    prints the largest differences from ../highprecision/, exits with 1 if one is over 1e-14
"""

import csv
import sys
import timeit
from itertools import groupby
from pathlib import Path

import numpy as np

POSITIONS = 720
AVERAGED = 4096  # positions that settle the mean lead of every chain of ../highprecision/ to rounding


TOLERANCE = 1e-14  # some 50 roundings of a double: what 12 joints one after another may add up to


def main():
    return check() if "--check" in sys.argv[1:] else print_times()


def motion(angles, shifts, theta):
    """Lead (with its mean still in it), ratio and acceleration per speed²: one row per shaft.

    angles are the working angles; shifts[k] is what leads from the driven azimuth at joint k - 1 to the driving azimuth
    at joint k. Sine and cosine are taken anew at each joint: NumPy does that faster than carrying them along.
    """
    lead, ratio, accel = (np.empty((len(angles) + 1, theta.size)) for _ in range(3))
    lead[0], ratio[0], accel[0] = 0, 1, 0
    phi = theta
    for k, (beta, shift) in enumerate(zip(angles, shifts)):
        phi = phi + shift
        c, s = np.cos(phi), np.sin(phi)
        cosine, cs, cc, ss = np.cos(beta), c * s, c * c, s * s
        slow = cc + cosine**2 * ss
        step_lead = np.arctan((-2 * np.sin(beta / 2) ** 2) * cs / (cc + cosine * ss))
        step_ratio = cosine / slow
        step_accel = (2 * cosine * np.sin(beta) ** 2) * cs / (slow * slow)
        lead[k + 1] = lead[k] + step_lead
        accel[k + 1] = accel[k] * step_ratio + ratio[k] ** 2 * step_accel
        ratio[k + 1] = ratio[k] * step_ratio
        phi = phi + step_lead
    return lead, ratio, accel


def revolution(angles, shifts, positions):
    lead, ratio, accel = motion(angles, shifts, 2 * np.pi * np.arange(positions) / positions)
    lead -= lead.mean(axis=1, keepdims=True)
    return lead, ratio, accel


def print_times():
    rng = np.random.default_rng(1)
    for joints in (1, 3, 8):
        angles, shifts = rng.uniform(0.02, 0.2, joints), rng.uniform(0, np.pi, joints)
        calls = 400 // joints
        best = min(timeit.repeat(lambda: revolution(angles, shifts, POSITIONS), number=calls, repeat=25)) / calls
        print(f"joints={joints} positions={POSITIONS} ns_per_joint_and_position={best / joints / POSITIONS * 1e9:.1f}")


def check():
    """Lead is compared in rad; ratio and acceleration in units of their largest value on the shaft, but at least 1."""
    folder = Path(__file__).parent.parent / "highprecision"
    shafts, worst = by_case(folder / "chains.csv"), np.zeros(3)
    for case, rows in by_case(folder / "motion.csv").items():
        angles, shifts = geometry(shafts[case])
        shape = (-1, len(shafts[case]))  # rows run over the shafts at one position, then on to the next
        theta = column(rows, "theta_rad").reshape(shape)[:, 0]
        lead, ratio, accel = motion(angles, shifts, theta)
        lead -= motion(angles, shifts, 2 * np.pi * np.arange(AVERAGED) / AVERAGED)[0].mean(axis=1, keepdims=True)
        differences = []
        for got, key in ((lead, "lead_rad"), (ratio, "ratio"), (accel, "accel_per_speed2")):
            want = column(rows, key).reshape(shape).T
            scale = 1 if key == "lead_rad" else np.maximum(1, np.abs(want).max(axis=1, keepdims=True))
            differences.append(np.abs((got - want) / scale).max())
        worst = np.maximum(worst, differences)
    print("highprecision/motion.csv in doubles: lead {:.1e} rad, ratio {:.1e}, accel {:.1e}".format(*worst))
    return 0 if worst.max() <= TOLERANCE else 1


def geometry(rows):
    """Working angles, and the shifts that `motion` takes, of a chain of shafts with slopes, headings and phases."""
    down, right = (np.radians(column(rows, key)) for key in ("down_deg", "right_deg"))
    phase = np.radians([float(row["phase_deg"] or 0) for row in rows])
    axes = np.stack([np.ones_like(down), -np.tan(right), -np.tan(down)], axis=1)
    axes /= np.linalg.norm(axes, axis=1, keepdims=True)
    level = np.cross([0, 0, 1], axes[0])
    level /= np.linalg.norm(level)
    angles, azimuths = [], []
    for u, v in zip(axes, axes[1:]):
        normal, cosine = np.cross(u, v), u @ v
        angles.append(np.arctan2(np.linalg.norm(normal), cosine))
        azimuths.append(np.arctan2(normal @ np.cross(u, level), normal @ level))
        once = np.cross(normal, level)
        level = level + once + np.cross(normal, once) / (1 + cosine)
    azimuths = np.array(azimuths)
    return np.array(angles), np.concatenate([-azimuths[:1], azimuths[:-1] - azimuths[1:] + np.pi / 2 + phase[1:-1]])


def column(rows, key):
    return np.array([float(row[key]) for row in rows])


def by_case(path):
    with open(path, newline="") as file:
        return {case: list(rows) for case, rows in groupby(csv.DictReader(file), key=lambda row: row["case"])}


if __name__ == "__main__":
    sys.exit(main())
