#!/usr/bin/python3
"""Computes every row of a published table that can be computed, at 60 digits, and compares it as ../README.md says.

    check_published.py ../published.csv

Exits with 1 if a row does not hold.
"""

import csv
import sys
from types import SimpleNamespace

from mpmath import acos, atan, cos, fabs, mpf, pi, sin, sqrt, tan

from cardan import degrees_exact, joint_step


def main(path):
    with open(path, newline="") as file:
        verdicts = [(row["id"], complaints(row)) for row in csv.DictReader(file)]
    for row_id, wrong in verdicts:
        for text in wrong or ():
            print(f"{path}: {row_id}: {text}")
    held = sum(wrong == [] for _, wrong in verdicts)
    print(f"{path}: {held} rows hold, {sum(wrong is None for _, wrong in verdicts)} state a limit or lie outside")
    return 1 if any(wrong for _, wrong in verdicts) else 0


def complaints(row):
    """What does not hold of a row: a list of texts, empty if all holds, None if there is nothing to compute."""
    pairs = [pair.split("=") for pair in row["inputs"].split(";") if pair]
    inputs = SimpleNamespace(**{key: mpf(value) for key, value in pairs})
    exact, as_printed = EXACT.get(row["quantity"]), AS_PRINTED.get(row["quantity"])
    if row["kind"] == "outside" or not (exact or row["implied_rad_s2"]):
        return None
    wrong = []

    def compare(what, computed, want, half_unit):
        if fabs(computed - mpf(want)) > half_unit:
            wrong.append(f"{what}: computed {float(computed):.9g}, want {want} within {float(half_unit):g}")

    if row["kind"] == "approximation":
        compare("exact", exact(inputs, row["unit"]), row["true_value"], half_of_last_digit(row["true_value"]))
        compare("as printed", as_printed(inputs, row["unit"]), row["printed"], mpf(row["half_unit"]))
    elif exact:
        compare("exact", exact(inputs, row["unit"]), row["printed"], mpf(row["half_unit"]))
    if row["implied_rad_s2"]:
        compare("implied", implied(row, inputs), row["implied_rad_s2"], mpf("0.5"))
    return wrong


def half_of_last_digit(text):
    return mpf(10) ** -len(text.partition(".")[2]) / 2


def implied(row, i):
    """Acceleration, rad/s², that a limit of angle at a speed, or of speed times angle, allows."""
    if row["quantity"] == "speed_angle_max":
        return (rad_s(mpf(row["printed"])) * pi / 180) ** 2
    return peak_accel(i.rpm, degrees_exact(getattr(i, "beta_deg", row["printed"])))


def rad_s(rpm):
    return rpm * pi / 30


def in_unit(rpm, unit):
    return rpm if unit == "rpm" else rad_s(rpm)


def beta(i):
    return degrees_exact(i.beta_deg)


def after_fastest(angle, turned):
    """Lead, ratio and acceleration so far on from the fastest place, where the driving ears lie in the joint's plane."""
    return joint_step(angle, turned + pi / 2)


def peak_accel_place(angle):
    """How far on from the fastest place the driven shaft slows down most."""
    g = sin(angle) ** 2 / (2 - sin(angle) ** 2)
    return acos((sqrt(1 + 8 * g**2) - 1) / (2 * g)) / 2


def first_order_peak_accel_place(angle):
    return acos(2 * sin(angle) ** 2 / (2 - sin(angle) ** 2)) / 2


def peak_accel_ratio(angle):
    return fabs(after_fastest(angle, peak_accel_place(angle))[2])


def peak_accel(rpm, angle):
    return rad_s(rpm) ** 2 * peak_accel_ratio(angle)


def occurrence(i, first_deg):
    """The first place, or its mirror images in the other quarter turns, deg."""
    return [first_deg, 180 - first_deg, 180 + first_deg, 360 - first_deg][int(i.occurrence) - 1]


def degrees(angle):
    return angle * 180 / pi


def driving_torque(i, unit):
    _, ratio, accel = after_fastest(beta(i), degrees_exact(i.from_fastest_deg))
    return (i.load + i.inertia * rad_s(i.rpm) ** 2 * accel) * ratio


def companion_angle(i, unit, joint1_deg=None):
    """Second angle of an in-phase pair in one plane that is left with that peak acceleration, by bisection.

    The pair acts as one joint of tan²(β/2) = (q2 - q1)/(1 - q1 q2), q = tan²(angle/2).
    """
    first = degrees_exact(i.joint1_deg if joint1_deg is None else joint1_deg)
    q1 = tan(first / 2) ** 2
    low, high = first, pi / 4
    for _ in range(100):
        middle = (low + high) / 2
        q2 = tan(middle / 2) ** 2
        left = 2 * atan(sqrt((q2 - q1) / (1 - q1 * q2)))
        low, high = (middle, high) if peak_accel(i.rpm, left) < i.accel_rad_s2 else (low, middle)
    return degrees(low)


def tyre_rpm(i, unit):
    """Of the free diameter, unless a measured rpm is given; one mile an hour is 1056 inches a minute."""
    if hasattr(i, "rpm_at_10_mph"):
        return i.rpm_at_10_mph * i.mph / 10
    if hasattr(i, "diameter_in"):
        return i.mph * 1056 / (pi * i.diameter_in)
    side_wall_in = i.width_mm / mpf("25.4") * i.aspect_percent / 100
    return i.mph * 1056 / (pi * (i.rim_in + 2 * side_wall_in))


EXACT = {
    "speed": lambda i, unit: rad_s(i.rpm),
    "speed_ratio": lambda i, unit: after_fastest(beta(i), degrees_exact(i.from_fastest_deg))[1],
    "min_speed": lambda i, unit: in_unit(i.rpm * cos(beta(i)), unit),
    "max_speed": lambda i, unit: in_unit(i.rpm / cos(beta(i)), unit),
    "nonuniformity": lambda i, unit: 1 / cos(beta(i)) - cos(beta(i)),
    "peak_accel_ratio": lambda i, unit: peak_accel_ratio(beta(i)),
    "peak_accel": lambda i, unit: peak_accel(i.rpm, beta(i)),
    "peak_accel_position": lambda i, unit: occurrence(i, degrees(peak_accel_place(beta(i)))),
    "unit_ratio_position": lambda i, unit: occurrence(i, degrees(atan(sqrt(cos(beta(i)))))),
    "peak_lead_position": lambda i, unit: degrees(atan(sqrt(cos(beta(i))))),
    "inertia_torque": lambda i, unit: i.inertia * peak_accel(i.rpm, beta(i)),
    "driving_torque": driving_torque,
    "torque_before": lambda i, unit: i.torque_behind * after_fastest(beta(i), degrees_exact(i.from_fastest_deg))[1],
    "companion_angle": companion_angle,
    "angle_at_accel": lambda i, unit: companion_angle(i, unit, joint1_deg=0),
    "joint_angle": lambda i, unit: i.after_deg - i.before_deg,
    "speed_angle": lambda i, unit: i.rpm * i.beta_deg,
    "tyre_rpm": tyre_rpm,
    "tyre_hz": lambda i, unit: tyre_rpm(i, unit) / 60,
    "driveshaft_hz": lambda i, unit: i.tyre_hz * i.axle_ratio * i.order,
    "order_hz": lambda i, unit: i.hz_at_5_mph * i.mph / 5 * i.order,
}

# How the printed value of an approximation comes about.
AS_PRINTED = {
    "peak_accel": lambda i, unit: i.rounded_rad_s**2 * peak_accel_ratio(beta(i)),
    "peak_accel_position": lambda i, unit: occurrence(i, degrees(first_order_peak_accel_place(beta(i)))),
    "unit_ratio_position": lambda i, unit: occurrence(i, degrees(atan(i.rounded_tan))),
    "peak_lead_position": lambda i, unit: mpf(45),
    "companion_angle": lambda i, unit: sqrt(i.joint1_deg**2 + degrees(degrees(i.accel_rad_s2 / rad_s(i.rpm) ** 2))),
    "driveshaft_hz": lambda i, unit: i.rounded_hz * i.order,
    "tyre_rpm": lambda i, unit: tyre_rpm(i, unit) / i.rolling_factor,
    "tyre_hz": lambda i, unit: tyre_rpm(i, unit) / i.rolling_factor / 60,
}


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
