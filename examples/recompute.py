#!/usr/bin/python3
"""Computes a driveline again, from its file alone, and compares with what the program says.

    halfturn series FILE > turn.csv;  halfturn check FILE --json > check.json
    recompute.py FILE turn.csv check.json      exits with 1 if a number is off

The formulas are those of THEORY.md, one joint after another; the program takes another way. NUMBERS.md defines every
column and key.
"""

import csv
import json
import sys

import numpy as np

TOLERANCE = 1e-9  # of numbers about 1 or below, and in parts of larger ones: 1e6 roundings


def main(driveline, series, check):
    check = json.load(open(check))
    rows = list(csv.DictReader(open(series)))
    u = axes(driveline)
    betas, mus = bends(u)
    phases = [np.radians(np.mean(s.get("phase", 0))) for s in driveline["shafts"]]
    halves = [crosses(j, beta) for j, beta in zip(driveline.get("joints", [{}] * len(betas)), betas)]
    rpm = check["rpm"]  # the road may set it
    omega = rpm * np.pi / 30

    theta = np.radians([float(row["theta_deg"]) for row in rows])
    shafts, terms = turn(halves, mus, phases, theta)
    fine, _ = turn(halves, mus, phases, np.arange(1024) * 2 * np.pi / 1024)
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
        run = np.mean(shaft.get("offset", 0)) / shaft.get("length", 1)
        right = np.radians(np.mean(shaft.get("right", 0)))
        if "down" in shaft:
            slope = np.radians(np.mean(shaft["down"]))
            right += np.arctan2(run, np.cos(slope) * np.sqrt(1 - run**2))
            vectors.append([1, -np.tan(right), -np.tan(slope)])
        elif "incline" in shaft or "turned" in shaft:
            slope = np.radians(np.mean(shaft.get("incline", shaft.get("turned"))))
            right += np.arcsin(run / np.cos(slope))
            vectors.append([np.cos(right), -np.sin(right), -np.tan(slope)])
        else:
            a, b = at[k - 1], at[k]
            vectors.append([b["along"] - a["along"], a["right"] - b["right"], a["down"] - b["down"]])
    return [np.array(v) / np.linalg.norm(v) for v in vectors]


def crosses(joint, beta):
    """The angles of a joint's crosses: the coupling yoke of two bisects the bend, or does so at one bend only."""
    kind, synchronous = joint.get("kind", "cardan"), np.radians(joint.get("synchronous_deg", 0))
    driven = np.arcsin(np.sin(beta) / (2 * np.cos(synchronous / 2))) if synchronous else beta / 2
    return {"cardan": [beta], "constant-velocity": [], "double-cardan": [beta - driven, driven]}[kind]


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


def turn(halves, mus, phases, theta):
    """(lead with its mean, ratio, acceleration over ω²) of every shaft, and the second-order terms."""
    shafts, terms = [(0 * theta, 0 * theta + 1, 0 * theta)], []
    straight = 0  # where the ears of the driving yoke stand at θ = 0, all joints straightened
    for angles, mu, phase in zip(halves, mus, phases):
        (lead, ratio, accel), term = shafts[-1], 0
        straight += phase
        for beta in angles:
            phi = theta + lead + straight - mu
            sin, cos = np.sin(phi), np.cos(phi)
            slow = 1 - (np.sin(beta) * sin) ** 2
            lead = lead - np.arctan(2 * np.sin(beta / 2) ** 2 * sin * cos / (cos**2 + np.cos(beta) * sin**2))
            accel = accel * np.cos(beta) / slow + ratio**2 * np.cos(beta) * np.sin(beta) ** 2 * 2 * sin * cos / slow**2
            ratio = ratio * np.cos(beta) / slow
            term += beta**2 * np.exp(2j * (straight - mu))
            straight += np.pi / 2
        shafts.append((lead, ratio, accel))
        terms.append(term)
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
