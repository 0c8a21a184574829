"""Flows that are constant or change steadily, and the moments at which they and the levels they feed cross something.

Between two events every flow of the model is a straight line in time: constant, or, while a tanker dumps by gravity,
falling steadily. So every level is a parabola at most, and every moment looked for is a root of a quadratic. Times in
minutes, flows in gpm, levels in gallons.
"""

import math
from dataclasses import dataclass

INSTANT = 1e-9  # minutes: moments no further apart than this are one instant
TINY_GAL = 1e-6  # gallons: a level this close to a mark is at the mark (about what flows in an instant)
TINY_GPM = 1e-9  # gpm: flows this close are equal; then the slopes tell which will be the lesser
NEVER = math.inf


@dataclass(frozen=True, slots=True)
class Ramp:
    """A flow: `at` gpm now, changing by `slope` gpm each minute."""

    at: float
    slope: float = 0.0

    def __add__(self, other):
        return Ramp(self.at + other.at, self.slope + other.slope)

    def __sub__(self, other):
        return Ramp(self.at - other.at, self.slope - other.slope)

    def times(self, factor):
        return Ramp(self.at * factor, self.slope * factor)

    def gallons(self, minutes):
        """What flows in the next `minutes`."""
        return self.at * minutes + self.slope * minutes * minutes / 2


ZERO = Ramp(0.0)


def total(ramps):
    return Ramp(sum(ramp.at for ramp in ramps), sum(ramp.slope for ramp in ramps))


def lesser(first, second, flips):
    """The flow that is the less just after now (`first` if they stay equal); appends to `flips` when that changes."""
    gap = second.at - first.at
    widening = second.slope - first.slope
    if gap > TINY_GPM or (gap >= -TINY_GPM and widening >= 0):
        if widening < 0:
            flips.append(gap / -widening)
        return first
    if widening > 0:
        flips.append(-gap / widening)
    return second


def first_down(above, rate, slope):
    """Minutes until `above` + rate t + slope t^2 / 2 next goes down through zero."""
    inside = rate * rate - 2 * slope * above
    if inside < 0:
        return NEVER
    root = math.sqrt(inside)
    if rate > 0:
        return (rate + root) / -slope if slope < 0 else NEVER
    if above <= 0 or root - rate <= 0:
        return NEVER
    return 2 * above / (root - rate)


def first_up(below, rate, slope):
    """Minutes until a level now `below` gallons under a mark next goes up through it."""
    return first_down(below, -rate, -slope)


def max_min_shares(flow, limits):
    """`flow` shared max-min fairly: equal shares, except that nobody gets more than its limit."""
    shares = [0.0] * len(limits)
    left = flow
    waiting = sorted(range(len(limits)), key=lambda i: limits[i])
    while waiting:
        i = waiting[0]
        shares[i] = min(limits[i], left / len(waiting))
        left -= shares[i]
        waiting.pop(0)
    return shares


def shares_in_turn(flow, limits):
    """`flow` taken in order: the first takes all it can, the next what is left."""
    shares = []
    for limit in limits:
        shares.append(min(limit, flow))
        flow -= shares[-1]
    return shares


def proportional_shares(fits, weights, limits, flips):
    """A flow `fits` (Ramp) shared in proportion to `weights` (gpm), nobody giving more than its limit (Ramp).

    What one cannot give the others give, again in proportion, as long as they can.
    """
    everything = total(limits)
    if lesser(everything, fits, flips) is everything:
        return list(limits)
    at_limit = set()
    while True:
        rest = fits
        weight = 0.0
        for i in range(len(weights)):
            if i in at_limit:
                rest = rest - limits[i]
            else:
                weight += weights[i]
        if weight <= 0:
            return list(limits)
        each = rest.times(1 / weight)
        beyond = {
            i
            for i in range(len(weights))
            if i not in at_limit and lesser(each.times(weights[i]), limits[i], []) is limits[i]
        }
        if not beyond:
            break
        at_limit |= beyond
    for i in range(len(weights)):
        lesser(each.times(weights[i]), limits[i], flips)
    return [limits[i] if i in at_limit else each.times(weights[i]) for i in range(len(weights))]
