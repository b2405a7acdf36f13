"""Peer of benchmark P1: the same depth model with SciPy's sparse LU, the same number of sweeps.

Reads the readings (JSON, argument 1) and the number of sweeps (argument 2). Prints one JSON line with two medians:

reduced_ms  the system the solver itself uses (two unknowns a run, seven globals), assembled with NumPy, factored and
            solved with scipy.sparse.linalg.splu once per sweep, all one-sided terms refreshed with vectorised
            scipy.special.erfcx.
whole_ms    the system as a general-purpose user states it: top and bottom of every piece, hole bottom, fill and trip
            offset of every run, seven globals; assembled once, values refreshed, factored and solved once per sweep,
            the same refresh.

Both leave out what SciPy has no routine for: the marginal variances that every sweep of expectation propagation
needs (the prior's are used instead). They are therefore lower limits of what the same computation costs in SciPy.
"""
import json
import sys
import time

import numpy as np
from scipy import sparse
from scipy.sparse.linalg import splu
from scipy.special import erfcx

with open(sys.argv[1], encoding='utf-8') as file:
    readings = json.load(file)
sweeps = int(sys.argv[2])
repeats = int(sys.argv[3])

runs = readings['runs']
pieces = readings['pieces']
R = len(runs)
P = len(pieces)
place = {run['id']: i for i, run in enumerate(runs)}
run_from = np.array([run['from'] for run in runs])
run_to = np.array([run['to'] for run in runs])
run_of = np.array([place[piece['run']] for piece in pieces])
length = np.array([piece['length'] for piece in pieces])
kind = np.array([piece['topBreak'] for piece in pieces])
loss = np.array([piece.get('loss', 0.0) for piece in pieces])
sounding_run = np.array([place[s['afterRun']] for s in readings['soundings']], dtype=int)
sounding_depth = np.array([s['depth'] for s in readings['soundings']])
sounding_sd = np.array([s['sd'] for s in readings['soundings']])
FITS, LOSS, UNSURE = kind == 'fits', kind == 'loss', kind == 'unsure'
READ_SD = np.sqrt(0.007**2 + 0.01**2 / 12)
OFFSET_SD = 0.01
LENGTH_SD = np.where(run_to[run_of] > 60, 0.003, 0.005)
CABLE, TAPE, FIT, LOST, FILL, STUB, GAP = range(7)
PRIOR = np.array([0.004, 0.0004, 1e-4, 0.1, np.log(2), np.log(2), np.log(2)])


def refresh(q, variance, mean):
    """Stand-in (mean, variance) of an exponential of this mean seen through N(q, variance)."""
    sd = np.sqrt(variance)
    z = q / sd - sd / mean
    hazard = np.sqrt(2 / np.pi) / erfcx(np.minimum(-z / np.sqrt(2), 25.0))
    far = z < -20
    away = np.where(far, z, -20.0)
    tilted = sd * np.where(far, -1 / away, z + hazard)
    spread = variance * np.where(far, 1 / away**2, np.maximum(1 - hazard * (z + hazard), 1e-6))
    precision = np.clip(1 / spread - 1 / variance, 0.02 / mean**2, 1e8)
    return (tilted / spread - q / variance) / precision, 1 / precision


def reduced():
    """B and D of every run, then the globals."""
    n = 2 * (R + 1) + 7
    g = 2 * (R + 1)
    B = 2 * np.arange(R + 1)
    D = B + 1
    x = np.zeros(n)
    x[D[1:]] = run_to
    x[B[1:]] = run_to
    stub = np.full(R, 0.03), np.full(R, 0.03**2)
    fill = np.full(R, 0.02), np.full(R, 0.02**2)
    gap = np.full(P, 0.01), np.full(P, 0.01**2)
    number = np.bincount(run_of, minlength=R)
    for _ in range(sweeps):
        part = length + np.where(FITS, 0.0, np.where(LOSS, loss, gap[0]))
        variance = LENGTH_SD**2 + np.where(FITS, 3e-7, np.where(LOSS, (0.002 + 0.4 * loss) ** 2, gap[1]))
        way = np.bincount(run_of, part, R)
        way_variance = np.bincount(run_of, variance, R) + (0.001 * number) ** 2 + 1e-10
        tape = np.bincount(run_of, length, R)
        fits = np.bincount(run_of, FITS, R)
        lost = np.bincount(run_of, np.where(LOSS, loss, 0.0), R)
        unsure = np.bincount(run_of, np.where(UNSURE, gap[0], 0.0), R)
        scale = 1 + x[g + CABLE]
        rows, columns, values, target, weight = [], [], [], [], []
        count = 0

        def equations(m, terms, right, w):
            nonlocal count
            at = count + np.arange(m)
            for column, value in terms:
                rows.append(at)
                columns.append(np.broadcast_to(column, m))
                values.append(np.broadcast_to(value, m))
            target.append(np.broadcast_to(right, m))
            weight.append(np.broadcast_to(w, m))
            count += m

        equations(7, [(g + np.arange(7), 1.0)], np.array([0, 0, 1e-3, 0, 0, 0, 0]), 1 / PRIOR**2)
        equations(2, [(np.array([0, 1]), 1.0)], 0.0, 4e6)
        equations(
            R,
            [(B[1:], 1.0), (B[:-1], -1.0), (g + TAPE, -tape), (g + FIT, -fits), (g + LOST, -lost), (g + GAP, -unsure)],
            way,
            1 / way_variance,
        )
        equations(R, [(D[1:], 1.0), (B[1:], -1.0), (g + STUB, -stub[0])], stub[0], 1 / stub[1])
        # the trip offset taken out by half-sum and half-difference of the two counter readings
        own = READ_SD**2 + OFFSET_SD**2
        equations(
            R, [(D[1:], scale), (g + CABLE, x[D[1:]])], run_to + x[D[1:]] * x[g + CABLE], np.full(R, 1 / own)
        )
        equations(
            R,
            [(D[:-1], scale), (g + CABLE, x[D[:-1]]), (g + FILL, -fill[0])],
            run_from + fill[0] + x[D[:-1]] * x[g + CABLE],
            1 / (own + fill[1]),
        )
        if len(sounding_depth):
            equations(
                len(sounding_depth),
                [(D[1:][sounding_run], 1.0)],
                sounding_depth + 0.02,
                1 / (sounding_sd**2 + 0.02**2),
            )
        A = sparse.csr_matrix(
            (np.concatenate(values), (np.concatenate(rows), np.concatenate(columns))), shape=(count, n)
        )
        w = sparse.diags(np.concatenate(weight))
        x = splu((A.T @ w @ A).tocsc(), permc_spec='MMD_AT_PLUS_A').solve(A.T @ (w @ np.concatenate(target)))
        stub = refresh(x[D[1:]] - x[B[1:]], np.full(R, 2e-4), 0.03 * np.exp(x[g + STUB]))
        fill = refresh(x[D[:-1]] * scale - run_from, np.full(R, 2e-4), 0.02 * np.exp(x[g + FILL]))
        share = gap[1] / way_variance[run_of]
        left = (np.diff(x[B]) - way)[run_of]
        gap = refresh(gap[0] + share * left, np.full(P, 2e-4), 0.01 * np.exp(x[g + GAP]))
    return x


def whole():
    """Top and bottom of every piece, D, fill and offset of every run, globals."""
    T = np.arange(P)
    E = P + T
    D = 2 * P + np.arange(R + 1)
    F = D[-1] + 1 + np.arange(R)
    O = F[-1] + 1 + np.arange(R)
    g = O[-1] + 1
    n = g + 7
    last = np.full(R, -1)
    last[run_of] = E
    above = np.concatenate([[-1], E[:-1]])
    has = last >= 0
    x = np.zeros(n)
    x[D[1:]] = run_to
    stub = np.full(R, 0.03), np.full(R, 0.03**2)
    fill = np.full(R, 0.02), np.full(R, 0.02**2)
    gap = np.full(P, 0.01), np.full(P, 0.01**2)
    inner = above >= 0
    for _ in range(sweeps):
        scale = 1 + x[g + CABLE]
        rows, columns, values, target, weight = [], [], [], [], []
        count = 0

        def equations(m, terms, right, w):
            nonlocal count
            at = count + np.arange(m)
            for column, value in terms:
                rows.append(at)
                columns.append(np.broadcast_to(column, m))
                values.append(np.broadcast_to(value, m))
            target.append(np.broadcast_to(right, m))
            weight.append(np.broadcast_to(w, m))
            count += m

        equations(7, [(g + np.arange(7), 1.0)], np.array([0, 0, 1e-3, 0, 0, 0, 0]), 1 / PRIOR**2)
        equations(1, [(D[:1], 1.0)], 0.0, 4e6)
        equations(P, [(E, 1.0), (T, -1.0), (g + TAPE, -length)], length, 1 / LENGTH_SD**2)
        mean = np.where(FITS, 0.0, np.where(LOSS, loss, gap[0]))
        variance = np.where(FITS, 3e-7, np.where(LOSS, (0.002 + 0.4 * loss) ** 2, gap[1]))
        column = np.where(FITS, g + FIT, np.where(LOSS, g + LOST, g + GAP))
        coefficient = np.where(FITS, 1.0, np.where(LOSS, loss, gap[0]))
        equations(
            P,
            [(T, 1.0), (np.where(inner, above, 0), np.where(inner, -1.0, 0.0)), (column, -coefficient)],
            mean,
            1 / variance,
        )
        m = int(has.sum())
        equations(m, [(D[1:][has], 1.0), (last[has], -1.0), (g + STUB, -stub[0][has])], stub[0][has], 1 / stub[1][has])
        equations(R, [(O, 1.0)], 0.0, np.full(R, 1 / OFFSET_SD**2))
        equations(R, [(F, 1.0), (g + FILL, -fill[0])], fill[0], 1 / fill[1])
        read = np.full(R, 1 / READ_SD**2)
        equations(R, [(D[1:], scale), (O, 1.0), (g + CABLE, x[D[1:]])], run_to + x[D[1:]] * x[g + CABLE], read)
        equations(
            R,
            [(D[:-1], scale), (F, -1.0), (O, 1.0), (g + CABLE, x[D[:-1]])],
            run_from + x[D[:-1]] * x[g + CABLE],
            read,
        )
        if len(sounding_depth):
            equations(len(sounding_depth), [(D[1:][sounding_run], 1.0)], sounding_depth + 0.02, 1 / sounding_sd**2)
        A = sparse.csr_matrix(
            (np.concatenate(values), (np.concatenate(rows), np.concatenate(columns))), shape=(count, n)
        )
        w = sparse.diags(np.concatenate(weight))
        x = splu((A.T @ w @ A).tocsc(), permc_spec='MMD_AT_PLUS_A').solve(A.T @ (w @ np.concatenate(target)))
        stub = refresh(
            np.where(has, x[D[1:]] - x[np.maximum(last, 0)], 0.03), np.full(R, 2e-4), 0.03 * np.exp(x[g + STUB])
        )
        fill = refresh(x[F], np.full(R, 2e-4), 0.02 * np.exp(x[g + FILL]))
        gap = refresh(x[T] - np.where(inner, x[above], 0.0), np.full(P, 2e-4), 0.01 * np.exp(x[g + GAP]))
    return x


def median(work):
    times = []
    for _ in range(repeats):
        start = time.perf_counter()
        x = work()
        times.append(1e3 * (time.perf_counter() - start))
        if not np.all(np.isfinite(x)):
            raise SystemExit('the peer did not converge')
    return sorted(times)[len(times) // 2]


print(json.dumps({'reduced_ms': median(reduced), 'whole_ms': median(whole)}))
