"""The recorder: bellows that follow the exhaust's pressure, a linkage with backlash, a square-root chart."""

import math

SCALE = 36.0  # divisions at one inch of water
FULL = 100.0  # last division of the chart
BACKLASH = 0.10  # inches of water, half the width


def chart(inches):
    return min(SCALE * math.sqrt(max(inches, 0.0)), FULL)


def play(pen, pressure, half_width=BACKLASH):
    """The play operator: where the linkage stands once the bellows have moved to a pressure. Without pressure the pen
    stands at zero: the rotor that runs down shakes it free."""
    above = min(half_width, max(pressure, 0.0))
    return min(max(pen, pressure - half_width), pressure + above)
