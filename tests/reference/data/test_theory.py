"""Makes test_theory_people.csv and test_theory_figures.csv anew.

The people are invented: 500 with two sittings of eight items and six parts. The figures come from
general-purpose libraries, whose versions are written into the files. Nothing here runs in the tests.

    python -m venv venv && venv/bin/pip install numpy scipy statsmodels pingouin girth
    venv/bin/python tests/reference/data/test_theory.py
"""

import importlib.metadata
import pathlib

import girth
import numpy as np
import pandas as pd
import pingouin
import scipy.stats
from statsmodels.stats.inter_rater import cohens_kappa
from statsmodels.stats.proportion import proportion_confint

FOLDER = pathlib.Path(__file__).parent
PEOPLE = 500
ITEMS = 8
PASS_MARK = 75.0


def invented():
    """Eight items and six parts of two sittings, from one ability for each person."""
    random = np.random.default_rng(20261130)
    ability = random.normal(size=PEOPLE)
    slope = np.array([0.7, 0.9, 1.1, 1.3, 1.5, 1.8, 1.0, 1.2])
    location = np.array([-1.5, -1.0, -0.5, 0.0, 0.5, 1.0, -0.8, 0.3])
    kept = random.uniform(size=(PEOPLE, ITEMS)) < 1 / (
        1 + np.exp(-slope * (ability[:, None] - location))
    )
    weights = np.array([20.0, 15.0, 20.0, 20.0, 15.0, 10.0])

    def parts():
        share = 0.8 + 0.12 * ability[:, None] + 0.12 * random.normal(size=(PEOPLE, 6))
        return np.round(weights * np.clip(share, 0, 1), 2)

    return kept.astype(int), parts(), parts()


def figures(kept, parts, second):
    """Every figure with the name of its library."""
    total, other = parts.sum(axis=1), second.sum(axis=1)
    found = []

    def add(library, figure, value):
        found.append((f"{library} {importlib.metadata.version(library)}", figure, float(value)))

    add("pingouin", "alpha", pingouin.cronbach_alpha(data=pd.DataFrame(parts))[0])
    add("pingouin", "kr20", pingouin.cronbach_alpha(data=pd.DataFrame(kept))[0])
    for item in range(ITEMS):
        r = scipy.stats.pointbiserialr(kept[:, item], total - parts[:, 3]).statistic
        add("scipy", f"point_biserial_{item + 1}", r)
    r = scipy.stats.pearsonr(total, other)
    interval = r.confidence_interval(0.95)
    add("scipy", "correlation", r.statistic)
    add("scipy", "correlation_low", interval.low)
    add("scipy", "correlation_high", interval.high)
    for percent in (5, 25, 50, 75, 95):
        add("numpy", f"percentile_{percent}", np.quantile(total, percent / 100))
    add("numpy", "variance", np.var(total, ddof=1))
    for count, of in ((0, 50), (3, 50), (50, 50), (412, 1000), (1, 31000)):
        low, high = proportion_confint(count, of, alpha=0.05, method="wilson")
        add("statsmodels", f"wilson_low_{count}_{of}", low)
        add("statsmodels", f"wilson_high_{count}_{of}", high)
    table = pd.crosstab(total >= PASS_MARK, other >= PASS_MARK).to_numpy()
    add("statsmodels", "kappa", cohens_kappa(table).kappa)
    model = girth.twopl_mml(kept.T, {"max_iteration": 500})
    for item in range(ITEMS):
        add("girth", f"slope_{item + 1}", model["Discrimination"][item])
        add("girth", f"location_{item + 1}", model["Difficulty"][item])
    return found


def main():
    kept, parts, second = invented()
    columns = [f"item_{n + 1}" for n in range(ITEMS)]
    columns += [f"part_{n + 1}" for n in range(6)] + [f"second_{n + 1}" for n in range(6)]
    with (FOLDER / "test_theory_people.csv").open("w") as out:
        out.write("# Computed: invented people, see test_theory.py\n")
        out.write(",".join(columns) + "\n")
        for items, first, other in zip(kept, parts, second):
            out.write(",".join(map(str, items)) + ",")
            out.write(",".join(f"{mark:.2f}" for mark in (*first, *other)) + "\n")
    with (FOLDER / "test_theory_figures.csv").open("w") as out:
        out.write("# Computed: general-purpose statistics libraries on test_theory_people.csv, see test_theory.py\n")
        out.write("library,figure,value\n")
        for library, figure, value in figures(kept, parts, second):
            out.write(f"{library},{figure},{value!r}\n")


if __name__ == "__main__":
    main()
