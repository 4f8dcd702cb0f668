#!/usr/bin/python3
"""Compares two CSV files: numbers within a tolerance, everything else to the letter.

    compare.py COMMITTED FRESH ABSOLUTE RELATIVE

Two numbers agree if they differ by no more than ABSOLUTE + RELATIVE times the greater of the two. ABSOLUTE is in
radians for a column whose name ends in _deg. Exits with 1 if the files differ.
"""

import csv
import sys
from decimal import Decimal, InvalidOperation, getcontext

getcontext().prec = 60
DEGREES = Decimal("57.29577951308232")


def main(committed, fresh, absolute, relative):
    a, b = read(committed), read(fresh)
    differing = [] if len(a) == len(b) else [f"{len(a)} lines, fresh {len(b)}"]
    for line, (row_a, row_b) in enumerate(zip(a, b), 1):
        for name, x, y in zip(a[0], row_a, row_b, strict=True):
            if not agree(x, y, absolute * (DEGREES if name.endswith("_deg") else 1), relative):
                differing.append(f"line {line}: {name} is {x}, fresh {y}")
    for text in differing[:10]:
        print(f"{committed}: {text}")
    within = f"within {absolute:g} + {relative:g} of the value"
    print(f"{committed}: " + (f"{len(differing)} differences" if differing else f"the same {within}"))
    return 1 if differing else 0


def agree(x, y, absolute, relative):
    try:
        p, q = Decimal(x), Decimal(y)
    except InvalidOperation:
        return x == y
    return abs(p - q) <= absolute + relative * max(abs(p), abs(q))


def read(path):
    with open(path, newline="") as file:
        return list(csv.reader(file))


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], sys.argv[2], Decimal(sys.argv[3]), Decimal(sys.argv[4])))
