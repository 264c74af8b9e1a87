"""Writes every table of the model into ../data:  python3 tables.py [TABLE ...]"""

import csv
import math
import pathlib
import sys

import scipy
from scipy.optimize import brentq

import motion
from recorder import chart, play
from rig import INH2O, Fan, Motor, Rig, actual, standard, steady

DATA = pathlib.Path(__file__).resolve().parent.parent / "data"
SITES = (("sea_level_20C", 101325.0, 293.15), ("1600m_5C", 83527.66, 278.15))
OPENINGS = (1.0, 0.8, 0.7, 0.6, 0.5, 0.45, 0.4, 0.35, 0.3, 0.27778, 0.25, 0.235, 0.22, 0.2, 0.15, 0.1)
LINE = (1.0, 0.7, 0.5, 0.35, 0.235)


def write(name, about, columns, rows):
    with open(DATA / name, "w", newline="") as file:
        file.write(f"# Computed by ../model with SciPy {scipy.__version__}\n# {about}\n")
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(columns.split(","))
        for row in rows:
            writer.writerow([f"{value:.9g}" if isinstance(value, float) else value for value in row])


def operating_points():
    columns = (
        "site,case,f,Q_true_m3min,Qstd_total,Q_through_calibrator,Qstd_cal,dH_inH2O,dpo_Pa,dpv_Pa,dp_inlet_Pa,dpx_Pa,"
        "Pexit_inH2O,chart_I,speed_ratio,I_A,P_elec_W,casing_W,T_exit_K,blower_rise_Pa,m_cal_kg_s,m_total_kg_s,m_leak_kg_s"
    )
    rows = []
    for site, pa, kelvin in SITES:
        for case, leak in (("clean", 0.0), ("leak2e-5", 2e-5)):
            for opening in OPENINGS:
                rig = Rig(opening=opening, leak=leak, air_pa=pa, air_k=kelvin)
                o = steady(rig)
                exhaust = o["exhaust"] / INH2O
                rows.append(
                    [site, case, opening, actual(rig, o["total"]), standard(rig, o["total"]), actual(rig, o["flow"]),
                     standard(rig, o["flow"]), o["orifice"] / INH2O, o["orifice"], o["openings"], o["cone"],
                     o["exhaust"], exhaust, 36.0 * math.sqrt(exhaust), o["s"], o["current"], o["electrical"],
                     o["lost"], o["hot"], o["rise"], o["flow"], o["total"], o["leak"]]
                )  # fmt: skip
    write("operating_points.csv", "120 V, no filter, the default rig; Qstd at 298.15 K, 101325 Pa", columns, rows)


def operating_points_filter():
    rows = []
    for site, pa, kelvin in SITES:
        for resistance in (0, 7000, 9104, 10404, 11705, 15000, 20000, 20808, 25000, 31212):
            rig = Rig(calibrator=False, filter_resistance=float(resistance), air_pa=pa, air_k=kelvin)
            o = steady(rig)
            exhaust = o["exhaust"] / INH2O
            rows.append(
                [site, resistance, actual(rig, o["total"]), standard(rig, o["total"]), o["filter"], o["exhaust"],
                 exhaust, 36.0 * math.sqrt(exhaust), o["s"], o["current"], o["electrical"], o["lost"], o["hot"]]
            )  # fmt: skip
    write(
        "operating_points_filter.csv", "120 V, filter in place of the calibrator, the default rig",
        "site,R_Pa_s_m,Q_true,Qstd,dpf_Pa,dpx_Pa,Pexit_inH2O,chart,speed_ratio,I_A,P_elec_W,casing_W,T_exit_K", rows,
    )  # fmt: skip


def lines_of_the_rig():
    rows = []
    for site, pa, kelvin in SITES:
        for case, leak in (("clean", 0.0), ("leak2e-5", 2e-5)):
            x, y = [], []
            for opening in LINE:
                rig = Rig(opening=opening, leak=leak, air_pa=pa, air_k=kelvin)
                o = steady(rig)
                x.append(standard(rig, o["flow"]))
                y.append(chart(o["exhaust"] / INH2O) * math.sqrt(pa / 101325.0 * 298.15 / kelvin))
            mx, my = sum(x) / len(x), sum(y) / len(y)
            sxx = sum((v - mx) ** 2 for v in x)
            sxy = sum((v - mx) * (u - my) for v, u in zip(x, y))
            syy = sum((u - my) ** 2 for u in y)
            slope = sxy / sxx
            rows.append([site, case, slope, my - slope * mx, sxy / math.sqrt(sxx * syy)])
    about = (
        "least squares of chart_I sqrt(P/101325 298.15/T) on the calibrator's standard flow, "
        f"f = {', '.join(str(f) for f in LINE)}"
    )
    write("lines_of_the_rig.csv", about, "site,case,slope,intercept,r", rows)


def blower_curves():
    fan, motor = Fan(), Motor()
    ohm = motor.resistance(motor.running)
    rows = []
    for volts in (80, 90, 100, 110, 115, 120, 125, 130):
        for tenth in range(21):
            q = tenth / 600.0

            def net(w):
                s = w / fan.reference
                return motor.k * motor.current(volts, w, ohm) ** 2 - fan.torque(s, 1.2, q) - motor.friction * s

            w = brentq(net, 1.0, 8000.0, xtol=1e-9)
            s = w / fan.reference
            rise = fan.rise(s, 1.2, q)
            if rise <= 0.0:
                continue
            current = motor.current(volts, w, ohm)
            torque = motor.k * current**2
            rows.append(
                [volts, tenth / 10, tenth / 10 / 0.028316846592, s * 18000.0, rise, rise / INH2O, current, torque,
                 torque * w, current**2 * ohm + torque * w, rise * q]
            )  # fmt: skip
    write(
        "blower_curves.csv", "inlet air of 1.20 kg/m3; rpm with 1885 rad/s taken as 18 000 rpm",
        "V,Q_m3min,Q_cfm,rpm,static_rise_Pa,static_rise_inH2O,I_A,T_em_Nm,P_gap_W,P_elec_W,P_air_W", rows,
    )  # fmt: skip


def warm_up():
    times = (0, 15, 30, 60, 120, 180, 240, 300, 420, 600, 900, 1200, 1800, 2700)
    wide, narrow = motion.warm_up(1.0, times), motion.warm_up(0.235, times)
    rows = [
        [t, w["winding_c"], w["heat"], w["made"], w["flow"], w["orifice"], w["hot"], w["chart"], w["pen"], n["flow"],
         n["hot"], n["chart"], n["pen"]]
        for t, w, n in zip(times, wide, narrow)
    ]  # fmt: skip
    write(
        "warm_up.csv", "a cold start at 120 V, 20 degrees Celsius; windings 240 s, bearings 420 s; the pen is not tapped",
        "t_s,T_winding_C,heat_given_W,heat_made_W,Q_open,dH_open,exhaust_rise_open_K,chart_open,pen_open,Q_f0.235,"
        "exhaust_rise_f0.235_K,chart_f0.235,pen_f0.235", rows,
    )  # fmt: skip


def run_up():
    write("run_up.csv", "a warm blower, calibrator open: seconds to a share of the change", "what,share,t_s", motion.run_up())


def flow_controller_loop():
    rows = []
    for gain, integral in ((30, 1.5), (60, 1.5), (60, 3.0), (100, 3.0), (20, 0.8), (150, 2.0)):
        o = motion.loop(gain, integral)
        rows.append(
            [gain, integral, 0.5, o["overshoot"], o["settle"], o["dip"], o["recover"], o["before"], o["after"], o["rpm"]]
        )
    write(
        "flow_controller_loop.csv",
        "set point 1.13 std m3/min; filter R 10400 -> 14000 Pa s/m at 30 s; start from rest, warm; V from 0 to 120",
        "Kp_V_per_m3min,Ti_s,tau_sensor_s,overshoot_pct,settle2pct_s,dip_pct_on_filter_step,recover1pct_s,V_before,V_after,rpm",
        rows,
    )


def flow_controller_limits():
    rows = [[goal, motion.held_until(goal)] for goal in (1.02, 1.13, 1.20, 1.24, 1.32)]
    write(
        "flow_controller_limits.csv", "the tightest filter with which 120 V hold a standard flow, sea level, 20 degrees Celsius",
        "Qstd,R_Pa_s_m", rows,
    )  # fmt: skip


def filter_loading():
    rows = []
    for loading in (2e5, 2.5e5, 5e5, 1e6):
        for dust in (50, 100, 260, 500, 750):
            deposit = dust * 1e-9 * 1.3 / 60.0 * 86400.0 / 0.040645
            rows.append([loading, dust, deposit * 1e3, deposit * 0.040645 * 1e6, loading * deposit, loading * deposit / 104.0])
    write(
        "filter_loading.csv", "24 h at 1.3 m3/min, exposed area 406.45 cm2, clean R 10400 Pa s/m: W = c Q t / A, dR = K2 W",
        "K2_Pa_s_m_per_kg_m2,conc_ug_m3,W_24h_g_m2,mass_mg,dR_Pa_s_m,dR_over_clean_pct", rows,
    )  # fmt: skip


def free_blower_day():
    rows = []
    for dust in (50, 150, 260, 500, 750, 1000):
        deposit, flow = motion.free_day(dust)
        rows.append([dust, deposit * 1e3, flow])
    write(
        "free_blower_day.csv", "24 h on 120 V without a controller, 20 degrees Celsius, sea level, K2 2.5e5 1/s",
        "conc_ug_m3,W_24h_g_m2,Q_end_m3min", rows,
    )  # fmt: skip


def pen_play():
    rows, pen = [[0, 0.0, 0.0, 0.0, 0.0, 0.0]], 0.0
    for step, pressure in enumerate((5.3, 4.7, 3.9, 3.3, 2.5, 2.0, 2.5, 3.3, 3.9, 4.7, 5.3), 1):
        pen = play(pen, pressure)
        rows.append([step, pressure, pen, chart(pressure), chart(pen), chart(pen) - chart(pressure)])
    write("pen_play.csv", "half width 0.10 inH2O, I = 36 sqrt(P/inH2O)", "step,P_true,P_pen,I_true,I_pen,I_err", rows)


TABLES = (
    operating_points, operating_points_filter, lines_of_the_rig, blower_curves, warm_up, run_up, flow_controller_loop,
    flow_controller_limits, filter_loading, free_blower_day, pen_play,
)  # fmt: skip

if __name__ == "__main__":
    for table in TABLES:
        if len(sys.argv) < 2 or table.__name__ in sys.argv[1:]:
            print(table.__name__, flush=True)
            table()
