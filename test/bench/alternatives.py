"""The thin ring's free shape by general-purpose routines: JSON with seconds a ring and the positions, for alternatives.mjs."""

import json
import sys
import time

import numpy as np
import scipy
from scipy.integrate import quad, solve_ivp

K, radius, gap, stations, seconds = json.loads(sys.argv[1])
limit = np.pi - np.arcsin(gap / (2 * radius))
theta = np.linspace(0, limit, stations + 1)


def tangent(t):
    return t - K * (t + np.sin(t))


def by_ode(method, tolerance):
    # x' = cos(psi), y' = sin(psi) along the ring.
    slope = lambda t, _: (np.cos(tangent(t)), np.sin(tangent(t)))
    found = solve_ivp(slope, (0, limit), (0, 0), method=method, t_eval=theta, rtol=tolerance, atol=tolerance)
    return found.y * radius


def by_quad():
    # From station to station, so that each place is known.
    steps = [
        [quad(lambda t, f=f: f(tangent(t)), a, b, epsabs=1e-13, epsrel=1e-13)[0] for a, b in zip(theta, theta[1:])]
        for f in (np.cos, np.sin)
    ]
    return np.concatenate([np.zeros((2, 1)), np.cumsum(steps, axis=1)], axis=1) * radius


def timed(task):
    best, end = float("inf"), time.perf_counter() + seconds
    while time.perf_counter() < end:
        start = time.perf_counter()
        found = task()
        best = min(best, time.perf_counter() - start)
    return {"seconds": best, "x": found[0].tolist(), "y": found[1].tolist()}


print(
    json.dumps(
        {
            "versions": f"Python {sys.version.split()[0]}, scipy {scipy.__version__}, numpy {np.__version__}",
            "solve_ivp, RK45, 1e-6": timed(lambda: by_ode("RK45", 1e-6)),
            "solve_ivp, DOP853, 1e-12": timed(lambda: by_ode("DOP853", 1e-12)),
            "solve_ivp, LSODA, 1e-12": timed(lambda: by_ode("LSODA", 1e-12)),
            "quad, station to station": timed(by_quad),
        }
    )
)
