"""Peer of benchmark P1: the same depth model with SciPy's sparse LU, the same number of sweeps.

Reads the readings (JSON, argument 1), the number of sweeps (argument 2) and of repeats (argument 3). Prints one JSON
line with two medians, and the hole bottoms that the second way ends with:

reduced_ms  the system the solver itself uses (B, D and the scale's drift of every run, five globals), assembled with
            NumPy, factored and solved with scipy.sparse.linalg.splu once per sweep, all one-sided terms refreshed with
            vectorised scipy.special.erfcx.
whole_ms    the system as a general-purpose user states it: top and bottom of every piece; hole bottom, fill, trip
            offset and drift of the scale of every run; five globals; assembled, factored and solved once per sweep,
            the same refresh.

Both leave out what SciPy has no routine for: the marginal variances that every sweep of expectation propagation needs.
What all else says of a one-sided quantity is taken to have the same variance everywhere (SEEN), and the logs of the
three learned means take one Newton step a sweep on the evidence that follows from it. They are therefore lower limits
of what the same computation costs in SciPy. No findings, no bounds.
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
if not np.all(FITS | LOSS | UNSURE):
    raise SystemExit('the peer knows breaks that fit, losses and unsure ones only')
READ_SD = np.sqrt(0.007**2 + 0.01**2 / 12)
OFFSET_SD = 0.012
LENGTH_SD = np.where(run_to[run_of] > 60, 0.004, 0.006)
BIAS_SD = 0.001
LOSS_SD = 0.002 + 0.4 * loss
DRIFT_SD = 4e-5 * np.sqrt(np.clip(np.diff(run_to, prepend=0.0), 1e-8, 5.0))
FIT_VARIANCE = 0.002**2 / 12 - (0.27 * 0.002) ** 2
CABLE, TAPE, FIT, LOST, SOUNDING = range(5)
GLOBALS = 5
PRIOR_MEAN = np.array([0, 0, 1e-3, 0, 0])
PRIOR_SD = np.array([0.004, 0.0005, 0.27 * 0.002, 0.1, 0.0003])
LEVEL_SD = np.log(2)
# one-sided quantities: first guess of the mean; share and mean of the rare wide ones
STUB = 0.03, 0.03, 0.25
FILL = 0.02, 0.02, 0.1
GAP = 0.01, 0.003, 0.2
# a run without core leaves it standing, and the next may land on it
EMPTY = np.bincount(run_of, minlength=R) == 0
AFTER_EMPTY = np.concatenate([[False], EMPTY])
SEEN = 2e-4
STRIDE = 0.7


class Sites:
    """Normal stand-ins of n one-sided quantities with one learned mean."""

    def __init__(self, n, first, rare, rare_mean):
        self.first = first
        self.rare = np.broadcast_to(rare, n)
        self.rare_mean = np.broadcast_to(rare_mean, n)
        self.level = 0.0
        self.mean = (1 - self.rare) * first + self.rare * self.rare_mean
        self.variance = 2 * (1 - self.rare) * first**2 + 2 * self.rare * self.rare_mean**2 - self.mean**2

    def refresh(self, q, learns):
        """q: posterior means. All else says N(seen, SEEN), which with the stand-in makes q."""
        seen = q + (q - self.mean) * SEEN / self.variance
        sd = np.sqrt(SEEN)
        usual = self.first * np.exp(self.level)
        log_a, mean_a, variance_a = cut(seen, sd, usual)
        log_b, mean_b, variance_b = cut(seen, sd, self.rare_mean)
        share = 1 / (1 + self.rare / (1 - self.rare) * np.exp(np.clip(log_b - log_a, -700, 700)))
        mean = share * mean_a + (1 - share) * mean_b
        variance = share * variance_a + (1 - share) * variance_b + share * (1 - share) * (mean_a - mean_b) ** 2
        precision = np.maximum(0.02 / self.first**2, 1 / variance - 1 / SEEN)
        wanted = (mean * (1 / SEEN + precision) - seen / SEEN) / precision
        # stand-ins mix in their natural parameters
        before = 1 / self.variance
        after = before + STRIDE * (precision - before)
        self.mean = (before * self.mean * (1 - STRIDE) + STRIDE * precision * wanted) / after
        self.variance = 1 / after
        slope = np.where(learns, share * (mean_a / usual - 1), 0).sum() - self.level / LEVEL_SD**2
        bend = np.where(learns, share * (variance_a / usual - mean_a) / usual, 0).sum() - 1 / LEVEL_SD**2
        self.level += np.clip(-slope / min(bend, -1 / LEVEL_SD**2), -1, 1)


def cut(seen, sd, mean):
    """Exponential of this mean times N(seen, sd^2): log mass, mean, variance."""
    z = seen / sd - sd / mean
    scaled = erfcx(np.minimum(-z / np.sqrt(2), 25.0))
    hazard = np.sqrt(2 / np.pi) / scaled
    far = z < -20
    away = np.where(far, z, -20.0)
    # below -35 erfcx(25) stands in: nothing is left of the mass there
    log_mass = -0.5 * (seen / sd) ** 2 + np.log(scaled / (2 * mean))
    above = z > 35
    log_mass = np.where(above, 0.5 * (sd / mean) ** 2 - seen / mean - np.log(mean), log_mass)
    lift = np.where(far, -1 / away, np.where(above, z, z + hazard))
    spread = np.where(far, 1 / away**2, np.where(above, 1.0, np.maximum(1 - hazard * (z + hazard), 1e-6)))
    return log_mass, sd * lift, sd * sd * spread


def start():
    stub = Sites(R, STUB[0], np.where(EMPTY, 0.999, STUB[1]), np.where(EMPTY, 1.0, STUB[2]))
    fill = Sites(R + 1, FILL[0], np.where(AFTER_EMPTY, 0.3, FILL[1]), np.where(AFTER_EMPTY, 0.3, FILL[2]))
    gap = Sites(P, *GAP)
    return stub, fill, gap


class Equations:
    def __init__(self, n):
        self.n = n
        self.rows, self.columns, self.values, self.target, self.weight = [], [], [], [], []
        self.count = 0

    def add(self, m, terms, right, w):
        at = self.count + np.arange(m)
        for column, value in terms:
            self.rows.append(at)
            self.columns.append(np.broadcast_to(column, m))
            self.values.append(np.broadcast_to(value, m))
        self.target.append(np.broadcast_to(right, m))
        self.weight.append(np.broadcast_to(w, m))
        self.count += m

    def solve(self):
        A = sparse.csr_matrix(
            (np.concatenate(self.values), (np.concatenate(self.rows), np.concatenate(self.columns))),
            shape=(self.count, self.n),
        )
        w = sparse.diags(np.concatenate(self.weight))
        normal = (A.T @ w @ A).tocsc()
        # symmetric and positive definite: no pivoting, the least fill of SciPy's orderings
        factor = splu(
            normal, permc_spec='MMD_AT_PLUS_A', diag_pivot_thresh=0.0, options={'SymmetricMode': True}
        )
        return factor.solve(A.T @ (w @ np.concatenate(self.target)))


def shared(e, g, U):
    """Priors of the globals and the walk of the cable's scale."""
    e.add(GLOBALS, [(g + np.arange(GLOBALS), 1.0)], PRIOR_MEAN, 1 / PRIOR_SD**2)
    e.add(1, [(U[:1], 1.0)], 0.0, 1 / DRIFT_SD[:1] ** 2)
    e.add(R - 1, [(U[1:], 1.0), (U[:-1], -1.0)], 0.0, 1 / DRIFT_SD[1:] ** 2)


def reduced():
    """B, D and U of every run, then the globals."""
    B = 3 * np.arange(R + 1)
    D = B + 1
    U = (B + 2)[1:]
    # the drift above the first run is none
    g = 3 * (R + 1)
    x = np.zeros(g + GLOBALS)
    x[D[1:]] = x[B[1:]] = run_to
    stub, fill, gap = start()
    number = np.bincount(run_of, minlength=R)
    tape = np.bincount(run_of, length, R)
    fits = np.bincount(run_of, FITS, R)
    lost = np.bincount(run_of, np.where(LOSS, loss, 0.0), R)
    own = READ_SD**2 + OFFSET_SD**2
    lean = OFFSET_SD**2 / own
    for _ in range(sweeps):
        part = length + np.where(FITS, 0.0, np.where(LOSS, loss, gap.mean))
        variance = LENGTH_SD**2 + np.where(FITS, FIT_VARIANCE, np.where(LOSS, LOSS_SD**2, gap.variance))
        way = np.bincount(run_of, part, R)
        way_variance = np.bincount(run_of, variance, R) + (BIAS_SD * number) ** 2 + 1e-10
        scale = 1 + x[g + CABLE] + x[U]
        above, below = x[D[:-1]], x[D[1:]]
        e = Equations(g + GLOBALS)
        shared(e, g, U)
        e.add(3, [(np.array([0, 1, 2]), 1.0)], 0.0, 4e6)
        e.add(
            R,
            [(B[1:], 1.0), (B[:-1], -1.0), (g + TAPE, -tape), (g + FIT, -fits), (g + LOST, -lost)],
            way,
            1 / way_variance,
        )
        e.add(R, [(D[1:], 1.0), (B[1:], -1.0)], stub.mean, 1 / stub.variance)
        bend = x[g + CABLE] + x[U]
        end = run_to + below * bend
        e.add(R, [(D[1:], scale), (g + CABLE, below), (U, below)], end, np.full(R, 1 / own))
        # the start given the end: they share the trip's offset
        e.add(
            R,
            [
                (D[:-1], scale),
                (D[1:], -lean * scale),
                (g + CABLE, above - lean * below),
                (U, above - lean * below),
            ],
            run_from + fill.mean[:R] + above * bend - lean * end,
            1 / (own * (1 - lean**2) + fill.variance[:R]),
        )
        if len(sounding_depth):
            e.add(
                len(sounding_depth),
                [(D[1:][sounding_run], 1.0), (g + SOUNDING, run_to[sounding_run])],
                sounding_depth + fill.mean[sounding_run + 1],
                1 / (sounding_sd**2 + fill.variance[sounding_run + 1]),
            )
        x = e.solve()
        stub.refresh(x[D[1:]] - x[B[1:]], ~EMPTY)
        scale = 1 + x[g + CABLE] + x[U]
        left = x[D[:-1]] * scale - run_from - lean * (x[D[1:]] * scale - run_to) - fill.mean[:R]
        share = fill.variance[:R] / (own * (1 - lean**2) + fill.variance[:R])
        fill.refresh(np.concatenate([fill.mean[:R] + share * left, fill.mean[R:]]), ~AFTER_EMPTY)
        off = np.diff(x[B]) - way - tape * x[g + TAPE] - fits * x[g + FIT] - lost * x[g + LOST]
        gap.refresh(gap.mean + gap.variance / way_variance[run_of] * off[run_of], UNSURE)
    return x[D[1:]]


def whole():
    """Top and bottom of every piece; D, fill, offset and drift of every run; globals."""
    T = np.arange(P)
    E = P + T
    D = 2 * P + np.arange(R + 1)
    F = D[-1] + 1 + np.arange(R + 1)
    O = F[-1] + 1 + np.arange(R)
    U = O[-1] + 1 + np.arange(R)
    M = U[-1] + 1 + np.arange(R)
    g = M[-1] + 1
    # bottom of the last core recovered up to each run; none above the first piece
    last = np.full(R, -1)
    last[run_of] = E
    last = np.maximum.accumulate(last)
    has = last >= 0
    above_piece = E[:-1]
    x = np.zeros(g + GLOBALS)
    x[D[1:]] = run_to
    stub, fill, gap = start()
    read = np.full(R, 1 / READ_SD**2)
    for _ in range(sweeps):
        bend = x[g + CABLE] + x[U]
        scale = 1 + bend
        above, below = x[D[:-1]], x[D[1:]]
        e = Equations(g + GLOBALS)
        shared(e, g, U)
        e.add(1, [(D[:1], 1.0)], 0.0, 4e6)
        e.add(R, [(M, 1.0)], 0.0, np.full(R, 1 / BIAS_SD**2))
        e.add(P, [(E, 1.0), (T, -1.0), (g + TAPE, -length), (M[run_of], -1.0)], length, 1 / LENGTH_SD**2)
        mean = np.where(FITS, 0.0, np.where(LOSS, loss, gap.mean))
        variance = np.where(FITS, FIT_VARIANCE, np.where(LOSS, LOSS_SD**2, gap.variance))
        column = np.where(FITS, g + FIT, g + LOST)
        coefficient = np.where(FITS, 1.0, np.where(LOSS, loss, 0.0))
        e.add(1, [(T[:1], 1.0), (column[:1], -coefficient[:1])], mean[:1], 1 / variance[:1])
        e.add(
            P - 1,
            [(T[1:], 1.0), (above_piece, -1.0), (column[1:], -coefficient[1:])],
            mean[1:],
            1 / variance[1:],
        )
        e.add(
            int(has.sum()), [(D[1:][has], 1.0), (last[has], -1.0)], stub.mean[has], 1 / stub.variance[has]
        )
        e.add(R, [(O, 1.0)], 0.0, np.full(R, 1 / OFFSET_SD**2))
        e.add(R + 1, [(F, 1.0)], fill.mean, 1 / fill.variance)
        e.add(
            R,
            [(D[1:], scale), (O, 1.0), (g + CABLE, below), (U, below)],
            run_to + below * bend,
            read,
        )
        e.add(
            R,
            [(D[:-1], scale), (F[:R], -1.0), (O, 1.0), (g + CABLE, above), (U, above)],
            run_from + above * bend,
            read,
        )
        if len(sounding_depth):
            e.add(
                len(sounding_depth),
                [
                    (D[1:][sounding_run], 1.0),
                    (F[sounding_run + 1], -1.0),
                    (g + SOUNDING, run_to[sounding_run]),
                ],
                sounding_depth,
                1 / sounding_sd**2,
            )
        x = e.solve()
        stub.refresh(np.where(has, x[D[1:]] - x[np.maximum(last, 0)], stub.mean), ~EMPTY & has)
        fill.refresh(x[F], ~AFTER_EMPTY)
        gap.refresh(np.where(UNSURE, x[T] - np.concatenate([[0.0], x[above_piece]]), gap.mean), UNSURE)
    return x[D[1:]]


def median(work):
    times = []
    for _ in range(repeats):
        begun = time.perf_counter()
        hole = work()
        times.append(1e3 * (time.perf_counter() - begun))
        if not np.all(np.isfinite(hole)):
            raise SystemExit('the peer did not converge')
    return sorted(times)[len(times) // 2], hole


reduced_ms, reduced_hole = median(reduced)
whole_ms, whole_hole = median(whole)
print(
    json.dumps(
        {
            'reduced_ms': reduced_ms,
            'whole_ms': whole_ms,
            'hole': whole_hole.tolist(),
            'apart_m': float(np.sqrt(np.mean((whole_hole - reduced_hole) ** 2))),
        }
    )
)
