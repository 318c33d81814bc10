"""Writes reference.json: what lifelines and SciPy give for some data, which the tests hold the measures against.

    python -m venv venv && venv/bin/pip install lifelines==0.30.3 && venv/bin/python tests/support/statistics/reference.py
"""

import json
import math
import pathlib
import random

import lifelines
import scipy
from lifelines import KaplanMeierFitter
from lifelines.datasets import load_leukemia
from lifelines.utils import qth_survival_times
from scipy.stats import binomtest, quantile_test


def plain(value):
    value = float(value)
    return value if math.isfinite(value) else None


def curve(name, observations):
    days = [d for d, _ in observations]
    ended = [e for _, e in observations]
    fit = KaplanMeierFitter(alpha=0.05).fit(days, ended)
    bounds = fit.confidence_interval_
    events = fit.event_table[fit.event_table["observed"] > 0]
    steps = [
        [plain(t), plain(fit.survival_function_.loc[t].iloc[0]), plain(bounds.loc[t].iloc[0]), plain(bounds.loc[t].iloc[1])]
        for t in events.index
    ]
    low, high = (plain(v) for v in qth_survival_times(0.5, bounds).iloc[0]) if steps else (None, None)
    return {
        "name": name,
        "observations": [[int(d), bool(e)] for d, e in observations],
        "steps": steps,
        "median": plain(fit.median_survival_time_),
        "low": low,
        "high": high,
    }


rng = random.Random(20240611)
leukemia = load_leukemia()
arms = {
    arm: [(int(r.t), bool(r.status)) for r in leukemia[leukemia["Rx"] == value].itertuples()]
    for arm, value in (("6-MP", 0), ("placebo", 1))
}


def made(n, mean, until):
    out = []
    for _ in range(n):
        lasts, followed = int(rng.expovariate(1 / mean)), rng.randint(0, until)
        out.append((min(lasts, followed), lasts <= followed))
    return out


sets = [
    curve("leukaemia, 6-MP", arms["6-MP"]),
    curve("leukaemia, placebo", arms["placebo"]),
    curve("one that ended", [(12, True)]),
    curve("one that goes on", [(12, False)]),
    curve("all on one day", [(5, True)] * 4),
    curve("none ended", [(d, False) for d in range(1, 9)]),
    curve("on the day it was placed", [(0, True), (0, True), (0, False), (3, True), (9, False), (9, True)]),
    *[curve(f"made, {n}, mean {mean}, until {until}", made(n, mean, until)) for n, mean, until in
      [(8, 20, 60), (25, 40, 400), (60, 90, 100), (200, 30, 2000), (400, 200, 365)]],
]
proportions = [
    [x, n, *(plain(v) for v in binomtest(x, n).proportion_ci(0.95, "wilson"))]
    for x, n in [(0, 1), (1, 1), (0, 12), (12, 12), (3, 17), (1, 10), (81, 263), (15, 148), (4999, 10000)]
]
medians = []
for n in (1, 2, 5, 6, 7, 8, 15, 40, 101, 1000):
    values = [round(rng.lognormvariate(3, 0.8), 2) for _ in range(n)]
    bounds = quantile_test(values, q=0, p=0.5).confidence_interval(0.95)
    ordered = sorted(values)
    middle = (ordered[(n - 1) // 2] + ordered[n // 2]) / 2
    medians.append({"values": values, "median": middle, "low": plain(bounds.low), "high": plain(bounds.high)})

made_by = f"lifelines {lifelines.__version__}, SciPy {scipy.__version__}"
text = json.dumps({"source": made_by, "curves": sets, "proportions": proportions, "medians": medians}, indent=1)
pathlib.Path(__file__).with_name("reference.json").write_text(text + "\n")
