"""Makes cooling.json: pots that cool by Newton's law, read with errors, and what scipy's curve_fit says of them.

Each pot has a room, a rate, readings to a tenth of a degree that are off by up to half a degree, and the true time to its
target. Beside that stands the time by least squares with the room known ("fixed") and with the room fitted too ("free",
with its standard error by the delta method), where scipy finds one. The seed is fixed.

    pip install numpy scipy
    python tests/vectors/cooling.py > tests/vectors/cooling.json
"""

import json
import warnings

import numpy
from scipy.optimize import OptimizeWarning, curve_fit

warnings.simplefilter("ignore", OptimizeWarning)
warnings.simplefilter("ignore", RuntimeWarning)
random = numpy.random.default_rng(7621)
ERROR = 0.5
COUNTS = [2, 3, 4, 6, 8, 12, 20, 40]
POTS_OF_EACH = 24


def cooling(minutes, room, start, rate):
    return room + (start - room) * numpy.exp(-rate * minutes)


def minutes_to(target, room, start, rate):
    return numpy.log((start - room) / (target - room)) / rate if target > room and start > target else None


def fixed_fit(minutes, celsius, room, target):
    model = lambda t, start, rate: cooling(t, room, start, rate)
    (start, rate), _ = curve_fit(model, minutes, celsius, p0=[celsius[0], 0.01], maxfev=20_000)
    return minutes_to(target, room, start, rate)


def free_fit(minutes, celsius, target):
    """Time and its standard error; nothing where scipy does not converge or the room comes out above the target."""
    try:
        fitted, covariance = curve_fit(
            cooling, minutes, celsius, p0=[20, celsius[0], 0.01], sigma=[ERROR / 3**0.5] * len(minutes),
            absolute_sigma=True, maxfev=20_000)
    except RuntimeError:
        return None
    found = minutes_to(target, *fitted)
    if found is None or not numpy.isfinite(covariance).all():
        return None
    slope = []
    for place in range(3):
        step = numpy.zeros(3)
        step[place] = 1e-5 * max(1e-3, abs(fitted[place]))
        above, below = (minutes_to(target, *(fitted + sign * step)) for sign in (1, -1))
        if above is None or below is None:
            return None
        slope.append((above - below) / (2 * step[place]))
    error = float(numpy.sqrt(numpy.array(slope) @ covariance @ numpy.array(slope)))
    return [round(float(found), 4), round(error, 4)]


def pot(count, room_range, target):
    room, start = random.uniform(*room_range), random.uniform(60, 85)
    rate = 1 / random.uniform(15, 180)
    # The last reading is taken somewhere before the target is reached, at least 3 degrees above it.
    latest = minutes_to(target + 3, room, start, rate) or 3 / rate
    end = latest * random.uniform(0.3, 1)
    minutes = numpy.sort(numpy.append(0, random.uniform(0, end, count - 1)))
    minutes = numpy.round(minutes, 2)
    minutes[-1] = round(end, 2)
    celsius = numpy.round(cooling(minutes, room, start, rate) + random.uniform(-ERROR, ERROR, count), 1)
    if celsius[0] - celsius[-1] <= 2 * ERROR or (numpy.diff(celsius) > 2 * ERROR).any():
        return pot(count, room_range, target)
    true = minutes_to(target, room, start, rate)
    fixed = fixed_fit(minutes, celsius, room, target) if true is not None else None
    return {
        "target": target,
        "room": round(room, 4),
        "minutes": minutes.tolist(),
        "celsius": celsius.tolist(),
        "true": None if true is None else round(float(true), 4),
        "fixed": None if fixed is None else round(float(fixed), 4),
        "free": free_fit(minutes, celsius, target) if count >= 4 else None,
    }


groups = {
    # The room is one that the program expects.
    "usual": [pot(count, (17, 26), 40) for count in COUNTS for _ in range(POTS_OF_EACH)],
    # The room may be above the target, which is then never reached.
    "low target": [pot(count, (17, 26), 24) for count in COUNTS for _ in range(POTS_OF_EACH // 2)],
    # The room is another one, which only readings can tell.
    "unusual": [pot(count, room, 40) for count in (12, 20, 40) for room in ((2, 12), (30, 34)) for _ in range(POTS_OF_EACH // 2)],
}
print("{")
for place, (name, pots) in enumerate(groups.items()):
    print(f"{json.dumps(name)}: [")
    print(",\n".join(json.dumps(one, separators=(",", ":")) for one in pots))
    print("]" + ("," if place + 1 < len(groups) else ""))
print("}")
