"""The steady rig, in SI units: the air's way from the inlet to the exhaust orifice, the fan and the motor.

Ambient air passes the calibrator's measuring orifice and its openings into the plenum, where a leak may join it; then
the filter, the inlet cone, the fan, the motor's windings and the exhaust orifice. At rest all electrical power ends in
this air, less what the casing gives off.
"""

import math
from dataclasses import dataclass, field

from scipy.optimize import brentq

GAS_CONSTANT = 287.05  # J/(kg K), dry air
KAPPA = 1.4
HEAT_CAPACITY = 1006.0  # J/(kg K)
INH2O = 249.08891  # Pa
STANDARD_PA = 101325.0
STANDARD_K = 298.15
EXPOSED_M2 = 0.040645  # 63 square inches


@dataclass
class Motor:
    """A series motor without saturation: I = V / |R + k w + iX|, T = k I^2."""

    brush: float = 1.475  # ohm
    winding: float = 2.425  # ohm, at the running temperature
    running: float = 363.15  # K
    copper: float = 0.00393  # 1/K, of the resistance at 293.15 K
    reactance: float = 6.6  # ohm
    k: float = 6.9e-3  # V s/A^2
    friction: float = 0.0214  # N m at the reference speed, warm
    cold_friction: float = 0.35  # fraction by which it is larger when cold

    def resistance(self, kelvin):
        def warm(t):
            return 1.0 + self.copper * (t - 293.15)

        return self.brush + self.winding * warm(kelvin) / warm(self.running)

    def current(self, volts, w, ohm):
        return volts / math.hypot(ohm + self.k * w, self.reactance)


@dataclass
class Fan:
    """Two centrifugal stages: a quadratic that obeys the fan laws, stated for air of 1.20 kg/m3."""

    density: float = 1.20  # kg/m3
    reference: float = 1885.0  # rad/s
    a: float = 13200.0  # Pa
    b: float = 30000.0  # Pa s/m3
    c: float = 5.71e6  # Pa s2/m6
    torque_still: float = 0.096  # N m
    torque_flow: float = 7.4  # N m s/m3

    def rise(self, s, rho, q):
        return rho / self.density * (self.a * s * s - self.b * q * s - self.c * q * q)

    def torque(self, s, rho, q):
        return rho / self.density * (self.torque_still * s * s + self.torque_flow * q * s)


@dataclass
class Rig:
    motor: Motor = field(default_factory=Motor)
    fan: Fan = field(default_factory=Fan)
    orifice: float = 5.417e-4  # m2, area times discharge coefficient
    openings: float = 5.2e-4  # m2, fully open
    cone: float = 1.35e-3  # m2
    exhaust: float = 6.17e-4  # m2
    casing: float = 3.0  # W/K
    leak: float = 0.0  # m2
    opening: float = 1.0
    calibrator: bool = True
    filter_resistance: float = 0.0  # Pa s/m at 20 degrees Celsius; 0 is no filter
    air_pa: float = 101325.0
    air_k: float = 293.15

    def density(self):
        return self.air_pa / (GAS_CONSTANT * self.air_k)


def expansibility(x):
    """ISO 5167-2, 5.3.2.2, for a small ratio of diameters; x is the drop over the upstream pressure."""
    return 1.0 - 0.351 * (1.0 - (1.0 - x) ** (1.0 / KAPPA))


def orifice_flow(area, upstream, kelvin, drop):
    """Mass flow, kg/s."""
    if drop <= 0.0:
        return 0.0
    rho = upstream / (GAS_CONSTANT * kelvin)
    return area * expansibility(drop / upstream) * math.sqrt(2.0 * rho * drop)


def orifice_drop(area, upstream, kelvin, flow):
    """The drop that a mass flow needs, Pa; the whole upstream pressure if none is enough."""

    def excess(drop):
        return orifice_flow(area, upstream, kelvin, drop) - flow

    most = 0.6 * upstream
    if flow <= 0.0:
        return 0.0
    return brentq(excess, 0.0, most, xtol=1e-11, rtol=1e-15) if excess(most) > 0.0 else upstream


def exhaust_drop(rig, kelvin, flow):
    """The pressure above the outside in front of the exhaust orifice, Pa."""

    def excess(drop):
        return orifice_flow(rig.exhaust, rig.air_pa + drop, kelvin, drop) - flow

    most = rig.air_pa
    return brentq(excess, 0.0, most, xtol=1e-11, rtol=1e-15) if excess(most) > 0.0 else most


def viscosity(kelvin):
    return 1.716e-5 * (kelvin / 273.15) ** 1.5 * 383.55 / (kelvin + 110.4)


def march(rig, flow, w, winding_heat=None, winding_k=None):
    """What a mass flow at the inlet (kg/s) and a speed (rad/s) come to. `winding_heat` is what the windings give to
    the air, W; without it, what they give at rest: all that the motor takes and does not pass on to the fan."""
    s = w / rig.fan.reference
    p, t = rig.air_pa, rig.air_k
    orifice = openings = filtered = leak = 0.0
    if rig.calibrator:
        orifice = orifice_drop(rig.orifice, p, t, flow)
        p -= orifice
        if p < 0.4 * rig.air_pa:
            return {"excess": -1e6}
        openings = orifice_drop(rig.openings * rig.opening, p, t, flow)
        p -= openings
        if p < 0.4 * rig.air_pa:
            return {"excess": -1e6}
        leak = orifice_flow(rig.leak, rig.air_pa, t, rig.air_pa - p)
    total = flow + leak
    if rig.filter_resistance > 0.0:
        face = total / (p / (GAS_CONSTANT * t)) / EXPOSED_M2
        filtered = rig.filter_resistance * viscosity(t) / viscosity(293.15) * face
        p -= filtered
        if p < 0.4 * rig.air_pa:
            return {"excess": -1e6}
    cone = orifice_drop(rig.cone, p, t, total)
    p -= cone
    if p < 0.4 * rig.air_pa:
        return {"excess": -1e6}
    rho = p / (GAS_CONSTANT * t)
    q = total / rho
    torque = rig.fan.torque(s, rho, q)
    if winding_heat is None:
        ohm = rig.motor.resistance(winding_k if winding_k is not None else rig.motor.running)
        friction = rig.motor.friction * s
        winding_heat = (torque + friction) / rig.motor.k * ohm + friction * w
    hot = t + (torque * w + winding_heat) / (total * HEAT_CAPACITY + rig.casing)
    exhaust = exhaust_drop(rig, hot, total)
    rise = rig.fan.rise(s, rho, q)
    return {
        "excess": rise - (rig.air_pa - p) - exhaust,
        "flow": flow,
        "total": total,
        "leak": leak,
        "orifice": orifice,
        "openings": openings,
        "filter": filtered,
        "cone": cone,
        "exhaust": exhaust,
        "hot": hot,
        "torque": torque,
        "rise": rise,
        "s": s,
    }


def at_speed(rig, w, winding_heat=None):
    """The flow at a speed, rad/s."""
    if w <= 1.0:
        return {"flow": 0.0, "total": 0.0, "exhaust": 0.0, "orifice": 0.0, "torque": 0.0, "hot": rig.air_k, "s": 0.0}
    flow = brentq(lambda m: march(rig, m, w, winding_heat)["excess"], 1e-9, 0.2, xtol=1e-14, rtol=1e-14)
    return march(rig, flow, w, winding_heat)


def steady(rig, volts=120.0):
    """The speed at which the motor's torque is that of air and friction, warm."""
    motor = rig.motor
    ohm = motor.resistance(motor.running)

    def net(w):
        current = motor.current(volts, w, ohm)
        return motor.k * current**2 - at_speed(rig, w)["torque"] - motor.friction * w / rig.fan.reference

    w = brentq(net, 50.0, 3000.0, xtol=1e-9, rtol=1e-14)
    found = at_speed(rig, w)
    current = motor.current(volts, w, ohm)
    found.update(
        w=w,
        current=current,
        electrical=current**2 * ohm + motor.k * current**2 * w,
        lost=rig.casing * (found["hot"] - rig.air_k),
    )
    return found


def actual(rig, flow):
    """A mass flow as m3/min at the air of the station."""
    return flow / rig.density() * 60.0


def standard(rig, flow):
    """A mass flow as m3/min at standard conditions."""
    return actual(rig, flow) * rig.air_pa / STANDARD_PA * STANDARD_K / rig.air_k
