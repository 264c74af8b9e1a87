"""The rig in time.

Speed:    J dw/dt = k I^2 - T_air - T_friction
Windings: their resistance follows (T_run - T) / 240 s; what they give to the air follows what is turned into heat in
          them, I^2 R and friction, by the same time: dH/dt = (I^2 R + T_friction w - H) / 240 s, so that 240 s H is the
          heat that is stored in them
Bearings: friction 1.35 cold to 1 warm, 420 s
"""

import math

import numpy as np
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

from recorder import chart, play
from rig import EXPOSED_M2, INH2O, Rig, actual, at_speed, standard, steady

INERTIA = 7e-4  # kg m2
WINDING_S = 240.0
BEARING_S = 420.0


def loads(rig, w, winding_k, cold, heat, volts):
    """Flow, current, friction's torque and the heat made in the windings at a state."""
    motor = rig.motor
    found = at_speed(rig, w, heat)
    ohm = motor.resistance(winding_k)
    current = motor.current(volts, w, ohm)
    friction = motor.friction * (1.0 + motor.cold_friction * cold) * w / rig.fan.reference
    return found, current, friction, current**2 * ohm + friction * w


def derivatives(rig, volts, state):
    w, winding_k, cold, heat = state
    found, current, friction, made = loads(rig, w, winding_k, cold, heat, volts)
    net = rig.motor.k * current**2 - found["torque"] - friction
    return [net / INERTIA, (rig.motor.running - winding_k) / WINDING_S, -cold / BEARING_S, (made - heat) / WINDING_S]


def warm_state(rig, volts=120.0):
    """Speed, winding, bearings and heat at rest."""
    at = steady(rig, volts)
    friction = rig.motor.friction * at["w"] / rig.fan.reference
    made = at["current"] ** 2 * rig.motor.resistance(rig.motor.running) + friction * at["w"]
    return [at["w"], rig.motor.running, 0.0, made]


def warm_up(opening, times):
    """A cold start at 120 V: a row for each time, and the pen of a recorder that was not tapped."""
    rig = Rig(opening=opening)
    start = [0.0, rig.air_k, 1.0, 0.0]
    went = solve_ivp(
        lambda t, y: derivatives(rig, 120.0, y), (0.0, max(times)), start, method="LSODA", rtol=1e-8, atol=1e-8,
        dense_output=True,
    )
    rows, pen, at = [], 0.0, 0.0
    for time in times:
        # The pen's way matters, not only its end: the pressure rises during the run-up and falls afterwards.
        for moment in np.linspace(at, time, 200)[1:] if time > at else []:
            w, _, _, heat = went.sol(moment)
            pen = play(pen, at_speed(rig, w, heat)["exhaust"] / INH2O)
        at = time
        w, winding_k, cold, heat = went.sol(time)
        found, current, friction, made = loads(rig, w, winding_k, cold, heat, 120.0)
        rows.append(
            {
                "winding_c": winding_k - 273.15,
                "heat": heat,
                "made": made,
                "flow": actual(rig, found["total"]),
                "orifice": found["orifice"] / INH2O,
                "hot": found["hot"] - rig.air_k if found["total"] > 0 else 0.0,
                "chart": chart(found["exhaust"] / INH2O),
                "pen": chart(pen),
            }
        )
    return rows


def passing(rig, state, volts, goal, until):
    """Seconds until the speed passes a goal."""

    def reached(_, y):
        return y[0] - goal

    reached.terminal = True
    went = solve_ivp(
        lambda t, y: derivatives(rig, volts, y), (0.0, until), state, method="LSODA", rtol=1e-8, atol=1e-8,
        events=reached, max_step=0.5,
    )
    return went.t_events[0][0]


def run_up():
    """Times of a warm blower with the calibrator open: run-up, a step of the voltage by 5 percent, coasting down."""
    rig = Rig()
    warm = warm_state(rig)
    rows = []
    for share in (0.63, 0.90, 0.99):
        rows.append(("run-up", share, passing(rig, [1.0] + warm[1:], 120.0, share * warm[0], 60.0)))
    faster = steady(rig, 126.0)["w"]
    # Within these seconds the windings' heat hardly changes: the goal is that of a rotor that has settled.
    goal = warm[0] + 0.632 * (faster - warm[0])
    rows.append(("5 % more voltage", 0.632, passing(rig, warm, 126.0, goal, 60.0)))
    for share in (0.5, 0.1):
        rows.append(("coasting", share, passing(rig, warm, 0.0, share * warm[0], 200.0)))
    return rows


def loop(gain, integral_s, sensor_s=0.5, goal=1.13, sample_s=0.05):
    """The controller's loop: thirty seconds from rest with a clean filter, thirty more with one of 14 000 Pa s/m.

    The regulator acts twenty times a second, as the bench's does; between its acts the voltage stands, and rotor, air
    and sensor move as their equations say."""
    rig = Rig(calibrator=False, filter_resistance=10400.0)
    state = [1.0] + warm_state(rig)[1:] + [0.0]
    integral, errors, volts = 0.0, [], 0.0
    steps = round(30.0 / sample_s)
    for step in range(2 * steps):
        if step == steps:
            volts_before, rpm = volts, state[0] / rig.fan.reference * 18000.0
            rig.filter_resistance = 14000.0
        error = goal - state[4]
        more = integral + gain * error * sample_s / integral_s
        wanted = gain * error + more
        if not ((wanted > 120.0 and error > 0.0) or (wanted < 0.0 and error < 0.0)):
            integral = more
        volts = min(max(gain * error + integral, 0.0), 120.0)

        def rates(_, y):
            flow = standard(rig, at_speed(rig, y[0], y[3])["total"])
            return derivatives(rig, volts, y[:4]) + [(flow - y[4]) / sensor_s]

        went = solve_ivp(rates, (0.0, sample_s), state, method="RK45", rtol=1e-6, atol=1e-6)
        state = list(went.y[:, -1])
        errors.append(standard(rig, at_speed(rig, state[0], state[3])["total"]) / goal - 1.0)

    def last_outside(errors, band):
        outside = [index for index, error in enumerate(errors) if abs(error) > band]
        return sample_s * (outside[-1] + 1) if outside else 0.0

    first, second = errors[:steps], errors[steps:]
    return {
        "overshoot": 100.0 * max(first),
        "settle": last_outside(first, 0.02),
        "dip": 100.0 * min(second),
        "recover": last_outside(second, 0.01),
        "before": volts_before,
        "after": volts,
        "rpm": rpm,
    }


def held_until(goal, filters=None):
    """The greatest resistance of a filter with which 120 V still hold a standard flow, Pa s/m."""

    def excess(resistance):
        rig = Rig(calibrator=False, filter_resistance=resistance)
        return standard(rig, steady(rig)["total"]) - goal

    return brentq(excess, 3000.0, 60000.0, xtol=1e-3)


def free_day(dust_ug_m3, loading=2.5e5, clean=10400.0):
    """Deposit (kg/m2) and flow (m3/min) after 24 hours of a blower on 120 V without a controller."""

    def rates(_, y):
        rig = Rig(calibrator=False, filter_resistance=clean + loading * y[0])
        return [dust_ug_m3 * 1e-9 * steady(rig)["total"] / rig.density() / EXPOSED_M2]

    went = solve_ivp(rates, (0.0, 86400.0), [0.0], method="RK45", rtol=1e-7, atol=1e-10)
    deposit = went.y[0, -1]
    rig = Rig(calibrator=False, filter_resistance=clean + loading * deposit)
    return deposit, actual(rig, steady(rig)["total"])
