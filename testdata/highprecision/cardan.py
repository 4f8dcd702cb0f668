"""The exact motion of a chain of Cardan joints at 60 digits, by the plain formulas, one joint after another.

Angles are radians, vectors lists of three, x level along the flow, y to the left, z up. Nothing is rearranged for speed
or for few digits; the mean of the lead is taken by summing over a turn, not by a closed form.
"""

from mpmath import atan2, cos, fabs, mp, mpf, nint, pi, sin, sqrt, tan

mp.dps = 60


def degrees_exact(value):
    """Radians of a double that is meant in degrees, without rounding it first."""
    return mpf(value) * pi / 180


def joint_step(beta, phi):
    """Lead, speed ratio and acceleration per speed² of the driven shaft, driving ears at phi from the joint's normal.

    The lead is rotation of the driven shaft less rotation of the driving one, 0 at phi = 0; it is odd in phi, so its
    mean over a turn of the driving shaft is 0.
    """
    driven = atan2(cos(beta) * sin(phi), cos(phi))
    turned = driven - phi
    lead = turned - 2 * pi * nint(turned / (2 * pi))
    slow = 1 - sin(beta) ** 2 * sin(phi) ** 2
    ratio = cos(beta) / slow
    accel = cos(beta) * sin(beta) ** 2 * sin(2 * phi) / slow**2
    return lead, ratio, accel


class Chain:
    """Shafts with slopes, headings and phases in degrees, taken as exact; the phases of the two ends do not count."""

    def __init__(self, down_deg, right_deg, phase_deg):
        self.phases = [degrees_exact(p) for p in phase_deg]
        axes = [unit([mpf(1), -tan(degrees_exact(r)), -tan(degrees_exact(d))]) for d, r in zip(down_deg, right_deg)]
        level = unit(cross([mpf(0), mpf(0), mpf(1)], axes[0]))
        self.angles, self.azimuths = [], []
        for u, v in zip(axes, axes[1:]):
            normal = cross(u, v)
            self.angles.append(atan2(sqrt(dot(normal, normal)), dot(u, v)))
            # A straight joint has no plane; any azimuth will do, for its motion does not depend on it.
            straight = not any(normal)
            self.azimuths.append(mpf(0) if straight else atan2(dot(normal, cross(u, level)), dot(normal, level)))
            level = carry(level, normal, dot(u, v))

    def raw_motion(self, theta):
        """Per shaft (lead, ratio, accel); the lead is the sum over the joints, its mean not yet taken out."""
        motion = [(mpf(0), mpf(1), mpf(0))]
        phi = theta - self.azimuths[0]
        for k, beta in enumerate(self.angles):
            lead, ratio, accel = motion[-1]
            step_lead, step_ratio, step_accel = joint_step(beta, phi)
            motion.append((lead + step_lead, ratio * step_ratio, accel * step_ratio + ratio**2 * step_accel))
            if k + 1 < len(self.angles):
                phi += step_lead + pi / 2 + self.azimuths[k] + self.phases[k + 1] - self.azimuths[k + 1]
        return motion

    def averages(self):
        """Per shaft (mean of the raw lead, cosine part, sine part of its order 2), by the equal-step trapezoid.

        The lead repeats every half turn and is smooth, so the sums converge geometrically; the number of steps is
        doubled until no sum moves by more than 1e-40 any more.
        """
        steps, before = 16, None
        while True:
            sums = [[mpf(0)] * 3 for _ in range(len(self.angles) + 1)]
            for i in range(steps):
                theta = pi * i / steps
                for total, (lead, _, _) in zip(sums, self.raw_motion(theta)):
                    total[0] += lead / steps
                    total[1] += 2 * lead * cos(2 * theta) / steps
                    total[2] += 2 * lead * sin(2 * theta) / steps
            if before and all(fabs(a - b) < mpf("1e-40") for x, y in zip(sums, before) for a, b in zip(x, y)):
                return sums
            steps, before = 2 * steps, sums


def carry(vector, normal, cosine):
    """The vector turned by the smallest rotation between two unit axes of that cross product and cosine."""
    once = cross(normal, vector)
    twice = cross(normal, once)
    return [a + b + c / (1 + cosine) for a, b, c in zip(vector, once, twice)]


def dot(a, b):
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def cross(a, b):
    return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]


def unit(a):
    length = sqrt(dot(a, a))
    return [x / length for x in a]
