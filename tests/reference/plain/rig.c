/* The equations of the rig's flow path, blower, manometer and recorder as a plain loop, to time the
 * program against. It prints what it found, so that both are known to do the same work: steady
 * operating points of a warm blower at 120 V, and a cold start of two minutes in ticks of 0.05 s.
 * SI units throughout; names of variables are those of the equations. Dry air, no leak, no filter. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#define KAPPA 1.4
#define TERMS 20
static const double W0 = 1885.0, CDA_O = 5.417e-4, CDA_V = 5.2e-4, CDA_CONE = 1.35e-3, CDA_X = 6.17e-4;
static const double A = 13200.0, B = 30000.0, C = 5.71e6, T0 = 0.096, T1 = 7.4;
static const double CASING = 3.0, CP = 1006.0, RG = 287.05, G0 = 9.80665, INCH = 249.08891;
static const double R_BRUSH = 1.475, R_WINDING = 2.425, WARM = 363.15, COPPER = 0.00393, X = 6.6, K = 6.9e-3;
static const double FRICTION = 0.0214, COLD = 0.35, J = 7e-4, TAU_W = 240.0, TAU_B = 420.0, COOLING = 0.005;
static const double BLOCKED = 0.0067;
static double series[TERMS];

/* A value and its slope with the unknown mass flow. */
typedef struct { double v, d; } dual;
static dual con(double v) { return (dual){v, 0.0}; }
static dual add(dual a, dual b) { return (dual){a.v + b.v, a.d + b.d}; }
static dual sub(dual a, dual b) { return (dual){a.v - b.v, a.d - b.d}; }
static dual mul(dual a, dual b) { return (dual){a.v * b.v, a.d * b.v + a.v * b.d}; }
static dual scale(dual a, double f) { return (dual){a.v * f, a.d * f}; }
static dual quot(dual a, dual b) {
    double inverse = 1.0 / b.v, v = a.v * inverse;
    return (dual){v, (a.d - v * b.d) * inverse};
}

/* 1 - (1 - x)^(1/kappa) by its series. */
static double expansion(double x) {
    double square = x * x, odd = 0.0, even = 0.0;
    if (x > 0.2) return 1.0 - pow(1.0 - x, 1.0 / KAPPA);
    for (int k = (x <= 0.05 ? 10 : TERMS) - 2; k >= 0; k -= 2) {
        odd = odd * square + series[k];
        even = even * square + series[k + 1];
    }
    return (odd + even * x) * x;
}

/* Solves x eps^2 = z, or x eps^2 / (1 - x)^2 = z, from a ratio near the solution. */
static dual invert(dual z, double near, int after) {
    double x = near > 0.0 ? near : z.v, slope = 1.0;
    if (z.v <= 0.0) return (dual){0.0, z.d};
    for (int i = 0; i < 30; i++) {
        double e = expansion(x), eps = 1.0 - 0.351 * e, de = -0.351 * (1.0 - e) / (KAPPA * (1.0 - x)), value, step;
        if (after) {
            double f = eps / (1.0 - x);
            value = x * f * f;
            slope = f * (f + 2.0 * x * (de + f) / (1.0 - x));
        } else {
            value = x * eps * eps;
            slope = eps * (eps + 2.0 * x * de);
        }
        step = (value - z.v) / slope;
        x -= step;
        if (fabs(step) <= 3e-7 * x) break;
    }
    return (dual){x, z.d / slope};
}

typedef struct { double pa, ta; } air;
/* What follows from one mass flow, and the ratios from which the next search starts. */
typedef struct { double w, m, dpo, px, tx, torque, heat; dual ratio[4]; } flow;
/* heat < 0: at rest, all electrical power ends in the air. */
typedef struct { double winding, bearing, heat; } warmth;

static double resistance(double winding) {
    return R_BRUSH + R_WINDING * (1.0 + COPPER * (winding - 293.15)) / (1.0 + COPPER * (WARM - 293.15));
}

static flow solve(air a, double f, double w, warmth warm, const flow *last) {
    double s = w / W0, root = sqrt(2.0 / (RG * a.ta)), specific = RG * a.ta;
    double open = f * CDA_V * root, exit_r = 0.5 * RG / (CDA_X * CDA_X), near[4] = {0, 0, 0, 0};
    double friction = FRICTION * (1.0 + COLD * warm.bearing) * s, m = 0.3 * fmin(CDA_O, f * CDA_V) * root * a.pa * s;
    if (m > 0.03 * s) m = 0.03 * s;
    if (last && last->w > 0.0) {
        double faster = w / last->w;
        m = last->m * faster;
        for (int k = 0; k < 4; k++) near[k] = last->ratio[k].v * faster * faster;
    }
    for (int i = 0;; i++) {
        dual u = {m, 1.0}, pa = con(a.pa), r[4], y, suction, density, q, rise, torque, power, tx, px, excess;
        y = scale(u, 1.0 / (CDA_O * root * a.pa));
        r[0] = invert(mul(y, y), near[0], 0);
        dual dpo = scale(r[0], a.pa), behind = sub(pa, dpo);
        y = quot(u, scale(behind, open));
        r[1] = invert(mul(y, y), near[1], 0);
        suction = add(dpo, mul(behind, r[1]));
        dual plenum = sub(pa, suction);
        y = quot(u, scale(plenum, CDA_CONE * root));
        r[2] = invert(mul(y, y), near[2], 0);
        suction = add(suction, mul(plenum, r[2]));
        density = scale(sub(pa, suction), 1.0 / specific);
        q = quot(u, density);
        rise = mul(scale(density, 1.0 / 1.2), sub(con(A * s * s), mul(add(scale(q, C), con(B * s)), q)));
        torque = mul(scale(density, 1.0 / 1.2), add(con(T0 * s * s), scale(q, T1 * s)));
        if (warm.heat < 0.0) power = scale(add(torque, con(friction)), w + resistance(warm.winding) / K);
        else power = add(scale(torque, w), m < COOLING ? scale(u, warm.heat / COOLING) : con(warm.heat));
        tx = quot(power, add(scale(u, CP), con(CASING)));
        tx = tx.v < 100.0 ? add(tx, con(a.ta)) : con(a.ta + 100.0);
        r[3] = invert(scale(mul(mul(u, u), scale(tx, exit_r)), 1.0 / (a.pa * a.pa)), near[3], 1);
        px = quot(scale(r[3], a.pa), sub(con(1.0), r[3]));
        excess = sub(sub(rise, suction), px);
        double more = -excess.v / excess.d;
        if (fabs(more) <= 1e-6 * m || i > 60) {
            flow found = {w, m + more, dpo.v + dpo.d * more, px.v + px.d * more, tx.v + tx.d * more,
                          torque.v + torque.d * more, warm.heat, {r[0], r[1], r[2], r[3]}};
            for (int k = 0; k < 4; k++) found.ratio[k].v += found.ratio[k].d * more;
            return found;
        }
        for (int k = 0; k < 4; k++) near[k] = r[k].v + r[k].d * more;
        m += more;
    }
}

/* Net torque on the shaft and its slope with the speed. */
static double net(double w, double volts, double winding, double bearing, const flow *now, double *slope) {
    double in = resistance(winding) + K * w, square = in * in + X * X, drive = K * volts * volts / square;
    double drag = FRICTION * (1.0 + COLD * bearing) / W0;
    *slope = -2.0 * drive * in * K / square - (w > 0.0 ? 2.0 * now->torque / w : 0.0) - drag;
    return drive - now->torque - drag * w;
}

static flow steady(air a, double f) {
    warmth warm = {WARM, 0.0, -1.0};
    double w = W0;
    flow now = solve(a, f, w, warm, NULL);
    for (int i = 0; i < 100; i++) {
        double slope, t = net(w, 120.0, WARM, 0.0, &now, &slope), next = w - t / slope;
        if (fabs(next - w) <= 1e-13 * w) break;
        w = next;
        now = solve(a, f, w, warm, &now);
    }
    return now;
}

typedef struct { double w, current; warmth warm; flow now; double x, v, bellows, linkage; } rig;

/* The parts of one tick that a person at the station waits for. */
static void tick(rig *r, air a, double f, double dt, double volts, double natural, double decay, double rho) {
    double slope, ohm = resistance(r->warm.winding), in = ohm + K * r->w, c = volts / sqrt(in * in + X * X);
    double friction = FRICTION * (1.0 + COLD * r->warm.bearing) / W0, made = c * c * ohm + friction * r->w * r->w;
    double t = net(r->w, volts, r->warm.winding, r->warm.bearing, &r->now, &slope), rate = slope / J;
    r->w += t / J * (rate < -1e-9 ? expm1(rate * dt) / rate : dt);
    in = ohm + K * r->w;
    c = r->current = volts / sqrt(in * in + X * X);
    made = 0.5 * (made + c * c * ohm + friction * r->w * r->w);
    double cooled = fmin(fmax(r->now.m / COOLING, 0.0), 1.0), per = cooled / TAU_W;
    double gained = per > 0.0 ? -expm1(-per * dt) / per : dt;
    r->warm.heat += (made / TAU_W - per * r->warm.heat) * gained;
    double tau = TAU_W / cooled, share = -expm1(-dt / tau), on = isfinite(tau) ? tau * share : dt;
    r->warm.winding += (WARM - r->warm.winding) * share + (1.0 - cooled) * BLOCKED * r->now.torque * r->w * on;
    r->warm.bearing -= r->warm.bearing * -expm1(-dt / TAU_B);
    r->now = solve(a, f, r->w, r->warm, &r->now);
    double rest = r->now.dpo / (2.0 * rho * G0), e = r->x - rest;
    double d = sqrt((natural - decay) * (natural + decay)), fade = exp(-decay * dt);
    double cosine = fade * cos(d * dt), sine = fade * sin(d * dt) / d;
    r->x = rest + cosine * e + sine * (r->v + decay * e);
    r->v = cosine * r->v - sine * (decay * r->v + natural * natural * e);
    double inches = r->now.px / INCH;
    r->bellows = inches + (r->bellows - inches) * exp(-dt / 0.5);
    r->linkage = fmin(fmax(r->linkage, r->bellows - 0.1), r->bellows + 0.1);
}

static double seconds(void) {
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return now.tv_sec + 1e-9 * now.tv_nsec;
}

/* Arguments: how often the points and the start are made again, and the column's swing as the program
 * works it out from Womersley's solution: natural frequency, decay, density of the water. */
int main(int count, char **words) {
    static const double openings[] = {1.0, 0.7, 0.5, 0.4, 0.3, 0.235, 0.2};
    static const air sites[] = {{101325.0, 293.15}, {83527.66, 278.15}};
    int times = count > 4 ? atoi(words[1]) : 0;
    if (times < 1) return 1;
    double natural = atof(words[2]), decay = atof(words[3]), rho = atof(words[4]), best[2] = {1e9, 1e9};
    flow found[14];
    rig r;
    series[0] = 1.0 / KAPPA;
    for (int k = 1; k < TERMS; k++) series[k] = series[k - 1] * (k - 1.0 / KAPPA) / (k + 1.0);
    for (int i = 0; i < times; i++) {
        double begun = seconds();
        for (int k = 0; k < 14; k++) found[k] = steady(sites[k / 7], openings[k % 7]);
        best[0] = fmin(best[0], (seconds() - begun) / 14.0);
        r = (rig){0};
        r.warm = (warmth){sites[0].ta, 1.0, 0.0};
        begun = seconds();
        for (int k = 0; k < 2400; k++) tick(&r, sites[0], 0.5, 0.05, 120.0, natural, decay, rho);
        best[1] = fmin(best[1], (seconds() - begun) / 2400.0);
    }
    printf("%.17g %.17g\n", best[0], best[1]);
    for (int k = 0; k < 14; k++) printf("%.17g %.17g %.17g\n", found[k].w, found[k].m, found[k].px);
    printf("%.17g %.17g %.17g\n", r.w, r.now.m, r.now.px);
    printf("%.17g %.17g %.17g\n", r.x, r.linkage, r.warm.heat);
    return 0;
}
