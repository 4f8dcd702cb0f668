#!/usr/bin/python3
"""Writes single.csv, chains.csv and motion.csv into the directory given: the hard corners, exact to the digits printed.

    generate.py DIRECTORY

Inputs are doubles, printed so that reading them back gives the same double, and taken as exact. Results are rounded to
20 digits from 60. Every chain is also held against the theory of the equivalent joint, which the sums do not use.
"""

import csv
import math
import random
import sys
from pathlib import Path

from mpmath import arg, atan, expj, fabs, mpc, mpf, nstr, pi, sqrt

from cardan import Chain, joint_step

DIGITS = 20
SINGLE_COLUMNS = "beta_rad phi_rad lead_rad ratio accel_per_speed2".split()
CHAIN_COLUMNS = """case shaft down_deg right_deg phase_deg
    working_angle_rad order2_cos_rad order2_sin_rad equivalent_angle_rad""".split()
MOTION_COLUMNS = "case theta_rad shaft lead_rad ratio accel_per_speed2".split()


def main(directory):
    draw = random.Random(3)
    cases = list(chain_cases(draw))
    write(directory / "single.csv", SINGLE_COLUMNS, single_rows(draw))

    chains, motion = [], []
    for name, inputs in cases:
        chain = Chain(*inputs)
        averages = chain.averages()
        chains += chain_rows(name, inputs, chain, averages)
        motion += motion_rows(draw, name, chain, averages)
    write(directory / "chains.csv", CHAIN_COLUMNS, chains)
    write(directory / "motion.csv", MOTION_COLUMNS, motion)


def single_rows(draw):
    betas_deg = [1e-7, 1e-6, 1e-5, 1e-4, 1e-3, 0.01, 0.1, 0.5, 1, 2, 3, 5, 10, 20, 30, 45, 60, 75, 85, 89, 89.9, 89.99]
    betas_deg += [draw.uniform(0, 45) for _ in range(3)] + [draw.uniform(45, 89.9) for _ in range(3)]
    quarter = math.pi / 2
    fixed = [0.0, 1e-300, 1e-9, 1e-5, *(math.radians(d) for d in (15, 30, 45, 60, 75, 89.9))]
    fixed += [quarter - 1e-5, quarter - 1e-9, quarter, quarter + 1e-9]
    fixed += [math.nextafter(quarter, 0), math.nextafter(quarter, 2)]
    fixed += [math.radians(d) for d in (-45, -90, 120, 135, 180, 270, 360)]
    for beta_deg in betas_deg:
        beta = math.radians(beta_deg)
        for phi in fixed + [draw.uniform(-2 * math.pi, 4 * math.pi) for _ in range(4)]:
            yield [repr(beta), repr(phi), *map(digits, joint_step(mpf(beta), mpf(phi)))]


def chain_cases(draw):
    """Names and (down, right, phase) in degrees of each chain, one number per shaft; the phases of the ends are 0."""
    for joints in range(1, 13):
        yield f"plain{joints}", scattered(draw, joints, 10)
    for joints in (1, 2, 3, 5, 8, 12):
        yield f"steep{joints}", scattered(draw, joints, 30)
    for joints in (1, 2, 5, 12):
        yield f"nearly-straight{joints}", scattered(draw, joints, 1e-6)

    yield "one-joint-at-80", ([0.0, 80.0, 70.0, 60.0], [0.0, 5.0, -20.0, 10.0], [0.0, 33.0, -70.0, 0.0])

    yield "straight3", ([0.0] * 4, [0.0] * 4, [0.0, 30.0, -50.0, 0.0])
    down, right, _ = scattered(draw, 3, 9)
    doubled = (0, 1, 1, 2, 3, 3)
    phase = [0.0, 20.0, -35.0, 90.0, 60.0, 0.0]
    yield "straight-among-bent5", ([down[i] for i in doubled], [right[i] for i in doubled], phase)
    down, right, phase = scattered(draw, 6, 8)
    down[3], right[3] = down[2] + 1e-6, right[2] - 1e-6
    yield "nearly-straight-among-bent6", (down, right, phase)

    for name, phase in (("", 0.0), ("-off1e-9", 1e-9), ("-off1e-4", 1e-4), ("-half-turn", 180.0), ("-quarter", 90.0)):
        yield f"cancel2{name}", ([0.0, 12.0, 0.0], [0.0] * 3, [0.0, phase, 0.0])
    yield "cancel2-unequal", ([0.0, 12.0, 1e-9], [0.0] * 3, [0.0] * 3)
    yield "cancel2-W", ([0.0, 12.0, 24.0], [0.0] * 3, [0.0] * 3)
    yield "cancel2-steep", ([0.0, 60.0, 0.0], [0.0] * 3, [0.0] * 3)
    yield "cancel12", ([0.0, 7.0] * 6 + [0.0], [0.0] * 13, [0.0] * 13)
    yield "quarter12", ([0.0, 7.0] * 6 + [0.0], [0.0] * 13, [0.0] + [90.0] * 11 + [0.0])
    yield "cancel2-spatial", cancelling_pair([0.0, 9.0, 2.0], [0.0, -7.0])


def scattered(draw, joints, limit_deg):
    """Slopes and headings within the limit, phases anywhere."""
    slopes = [[draw.uniform(-limit_deg, limit_deg) for _ in range(joints + 1)] for _ in range(2)]
    return (*slopes, [0.0, *(draw.uniform(-180, 180) for _ in range(joints - 1)), 0.0])


def cancelling_pair(down, right):
    """Two joints out of one plane; last heading and phase are such that they cancel but for the rounding of the two."""
    low, high = 0.0, 20.0
    for _ in range(100):
        middle = (low + high) / 2
        first, second = Chain(down, [*right, middle], [0.0] * 3).angles
        low, high = (middle, high) if second < first else (low, middle)
    right = [*right, low]
    azimuth1, azimuth2 = Chain(down, right, [0.0] * 3).azimuths
    return down, right, [0.0, float((azimuth2 - azimuth1) * 180 / pi), 0.0]


def chain_rows(name, inputs, chain, averages):
    for k, (down, right, phase, (_, cosine, sine)) in enumerate(zip(*inputs, averages)):
        angle = digits(chain.angles[k - 1]) if k else ""
        inner = 0 < k < len(chain.angles)
        cosine, sine = settled(cosine), settled(sine)
        equivalent = 2 * atan(sqrt(sqrt(cosine**2 + sine**2)))
        orders = map(digits, (cosine, sine, equivalent))
        yield [name, k + 1, repr(down), repr(right), repr(phase) if inner else "", angle, *orders]


def motion_rows(draw, name, chain, averages):
    thetas = [0.0, math.pi / 4, math.pi / 2, math.pi / 2 + 1e-9, *(draw.uniform(0, 2 * math.pi) for _ in range(4))]
    for theta in thetas:
        for k, ((lead, ratio, accel), (mean, cosine, sine)) in enumerate(zip(chain.raw_motion(mpf(theta)), averages)):
            expect_one_equivalent_joint(mpf(theta), lead - mean, mpc(-sine, -cosine))
            yield [name, repr(theta), k + 1, *(digits(settled(x)) for x in (lead - mean, ratio, accel))]


def expect_one_equivalent_joint(theta, lead, q):
    """A Cardan joint acts on w = exp(2jφ) as the Möbius map (w + q)/(1 + q w), q = tan²(β/2).

    Such maps, turned by azimuths, form a group, so every chain acts as one joint of complex q:
    lead = −arg(1 + q·exp(2jθ)), of which −Im(q·exp(2jθ)) is the order 2.
    """
    difference = lead + arg(1 + q * expj(2 * theta))
    if fabs(difference) > mpf("1e-38"):
        at = f"theta = {nstr(theta, 17)} rad"
        raise ArithmeticError(f"lead at {at} is off its equivalent joint by {nstr(difference, 3)} rad")


def settled(value):
    """The value, or 0 where only the rounding of the 60 digits and the end of the sums is left."""
    return value if fabs(value) > mpf("1e-38") else mpf(0)


def digits(value):
    return nstr(value, DIGITS, strip_zeros=True)


def write(path, header, rows):
    with open(path, "w", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(header)
        writer.writerows(rows)


if __name__ == "__main__":
    main(Path(sys.argv[1]))
