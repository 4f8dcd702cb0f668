#!/usr/bin/python3
"""Computes a driveline again, from its file alone, and compares with what the program says.

    halfturn series FILE > turn.csv;  halfturn check FILE --json > check.json
    recompute.py FILE turn.csv check.json      exits with 1 if a number is off

The formulas are those of THEORY.md, one joint after another; the program takes another way. Double-cardan joints,
and shafts by "turned" or "offset", are left to the program. NUMBERS.md defines every column and key.
"""

import csv
import json
import sys

import numpy as np

TOLERANCE = 1e-9  # of numbers about 1 or below, and in parts of larger ones: 1e6 roundings


def main(driveline, series, check):
    check = json.load(open(check))
    rows = list(csv.DictReader(open(series)))
    u, (phases, kinds) = axes(driveline), yokes(driveline)
    betas, mus = bends(u)
    rpm = check["rpm"]  # the road may set it
    omega = rpm * np.pi / 30

    theta = np.radians([float(row["theta_deg"]) for row in rows])
    shafts, terms = turn(betas, mus, phases, kinds, theta)
    fine, _ = turn(betas, mus, phases, kinds, np.arange(1024) * 2 * np.pi / 1024)
    for k, (lead, ratio, accel) in enumerate(shafts):
        name, mean = f"shaft{k + 1}_", fine[k][0].mean()
        compare(name + "lead_deg", np.degrees(lead - mean), [row[name + "lead_deg"] for row in rows])
        compare(name + "ratio", ratio, [row[name + "ratio"] for row in rows])
        if rpm:
            compare(name + "accel_rad_s2", accel * omega**2, [row[name + "accel_rad_s2"] for row in rows])

    compare("working_angle_deg", np.degrees(betas), [j["working_angle_deg"] for j in check["joints"]])
    for (lead, ratio, accel), motion in zip(fine, check["motion"]):
        spectrum = np.fft.rfft(lead)[2:9:2] / 512  # amplitude·exp(−j·phase) of orders 2, 4, 6, 8
        orders = [o["lead_deg"] * np.exp(-1j * np.radians(o["phase_deg"])) for o in motion["orders"]]
        compare("orders of " + motion["shaft"], spectrum * 180 / np.pi, orders)
        compare("ratio_rms_deviation", np.std(ratio), motion["ratio_rms_deviation"])
        if rpm:
            compare("rms_accel_rad_s2", np.sqrt(np.mean(accel**2)) * omega**2, motion["rms_accel_rad_s2"])
    second, square = check["second_order"], (180 / np.pi) ** 2
    compare("second_order.terms", np.array(terms) * square, [vector(v) for v in second["terms"]])
    compare("second_order.sum", sum(terms) * square, vector(second["sum"]))
    # Squared, since a root of rounding is no small number where all cancels.
    compare("equivalent_angle_deg", abs(sum(terms)), np.radians(second["equivalent_angle_deg"]) ** 2)
    left = abs(np.fft.rfft(fine[-1][0])[2]) / 512
    compare("exact_equivalent_angle_deg", left, np.tan(np.radians(second["exact_equivalent_angle_deg"]) / 2) ** 2)


def axes(driveline):
    """Unit vectors along the shafts: along the flow, to the left, up."""
    at = [j.get("at") for j in driveline.get("joints", [])]
    vectors = []
    for k, shaft in enumerate(driveline["shafts"]):
        if "down" in shaft or "incline" in shaft:
            right = np.radians(np.mean(shaft.get("right", 0)))
            slope = np.tan(np.radians(np.mean(shaft["down"]))) if "down" in shaft else \
                np.tan(np.radians(np.mean(shaft["incline"]))) / np.cos(right)
            vectors.append([1, -np.tan(right), -slope])
        else:
            a, b = at[k - 1], at[k]
            vectors.append([b["along"] - a["along"], a["right"] - b["right"], a["down"] - b["down"]])
    return [np.array(v) / np.linalg.norm(v) for v in vectors]


def yokes(driveline):
    """Phases of the shafts, and kinds of the joints."""
    shafts = driveline["shafts"]
    joints = driveline.get("joints", [{}] * (len(shafts) - 1))
    return [np.radians(np.mean(s.get("phase", 0))) for s in shafts], [j.get("kind", "cardan") for j in joints]


def bends(u):
    """Working angles, and azimuths of the normals of the joints' planes."""
    e = np.cross([0, 0, 1], u[0])
    e /= np.linalg.norm(e)
    betas, mus = [], []
    for a, b in zip(u, u[1:]):
        m = np.cross(a, b)
        betas.append(np.arctan2(np.linalg.norm(m), a @ b))
        mus.append(np.arctan2(m @ np.cross(a, e), m @ e))
        e = e + np.cross(m, e) + np.cross(m, np.cross(m, e)) / (1 + a @ b)  # turned as a turns into b
    return betas, mus


def turn(betas, mus, phases, kinds, theta):
    """(lead with its mean, ratio, acceleration over ω²) of every shaft, and the second-order terms."""
    shafts, terms = [(0 * theta, 0 * theta + 1, 0 * theta)], []
    straight = 0  # where the ears of the driving yoke stand at θ = 0, all joints straightened
    for beta, mu, phase, kind in zip(betas, mus, phases, kinds):
        lead, ratio, accel = shafts[-1]
        straight += phase
        if kind == "constant-velocity":
            shafts.append(shafts[-1])
            terms.append(0)
            continue
        if kind != "cardan":
            sys.exit(f"{kind} joint: left to the program")
        phi = theta + lead + straight - mu
        sin, cos = np.sin(phi), np.cos(phi)
        slow = 1 - (np.sin(beta) * sin) ** 2
        shafts.append((
            lead - np.arctan(2 * np.sin(beta / 2) ** 2 * sin * cos / (cos**2 + np.cos(beta) * sin**2)),
            ratio * np.cos(beta) / slow,
            accel * np.cos(beta) / slow + ratio**2 * np.cos(beta) * np.sin(beta) ** 2 * 2 * sin * cos / slow**2))
        terms.append(beta**2 * np.exp(2j * (straight - mu)))
        straight += np.pi / 2
    return shafts, terms


def vector(v):
    return v["size_deg2"] * np.exp(1j * np.radians(v["direction_deg"]))


def compare(name, got, want):
    want = np.array(want).astype(complex)
    off = np.max(abs(got - want) / np.maximum(1, abs(want)))
    if not off < TOLERANCE:
        sys.exit(f"{name}: off by {off:.1e}")


if __name__ == "__main__":
    main(json.load(open(sys.argv[1])), *sys.argv[2:])
