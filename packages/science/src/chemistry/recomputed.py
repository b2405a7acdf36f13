"""Values of the chemistry tests that nobody printed, computed another way: mpmath with 40 digits, no code of ours.

Run: python3 recomputed.py. It prints what the tests hold.
"""
from mpmath import binomial, diff, erfc, exp, factorial, findroot, inverse, log, matrix, mp, mpf, sqrt

mp.dps = 40
phi_below = lambda z: erfc(-z / sqrt(2)) / 2

# censored values of Helsel 2005, chapter 6 (as in kaplan-meier.test.ts)
text = "<1 <1 1.7 <1 <1 <2 3.2 <2 <2 2.8 <2 <2 <2 <2 <2 0.7 0.9 0.5 0.5 <0.9 0.5 0.7 0.6 1.5"
readings = [(mpf(w.lstrip("<")), w.startswith("<")) for w in text.split()]


def minus_log_likelihood(mu, sigma):
    total = mpf(0)
    for x, below in readings:
        z = (log(x) - mu) / sigma
        total -= log(phi_below(z)) if below else -log(sigma) - z * z / 2
    return total


slope = lambda i: lambda mu, sigma: diff(minus_log_likelihood, (mu, sigma), (1, 0) if i == 0 else (0, 1))
mu, sigma = findroot([slope(0), slope(1)], (mpf("-0.25"), mpf("0.63")), tol=1e-25)
hessian = matrix(2, 2)
for i, j, order in ((0, 0, (2, 0)), (0, 1, (1, 1)), (1, 0, (1, 1)), (1, 1, (0, 2))):
    hessian[i, j] = diff(minus_log_likelihood, (mu, sigma), order)
covariance = inverse(hessian)


def first_order(f):
    d = [diff(f, (mu, sigma), (1, 0)), diff(f, (mu, sigma), (0, 1))]
    return sqrt(sum(d[i] * d[j] * covariance[i, j] for i in range(2) for j in range(2)))


mean = lambda m, s: exp(m + s * s / 2)
print("likelihood", *(mp.nstr(v, 12) for v in (
    mu, sigma, sqrt(covariance[0, 0]), sqrt(covariance[1, 1]), covariance[0, 1], mean(mu, sigma),
    first_order(mean), first_order(lambda m, s: mean(m, s) * sqrt(exp(s * s) - 1)), first_order(lambda m, s: exp(m)))))

# exact counting limits
poisson_up_to = lambda n, m: sum(exp(-m) * m**k / factorial(k) for k in range(n + 1))


def well_known(blank, alpha, beta):
    n = 0
    while 1 - poisson_up_to(n, blank) > alpha:
        n += 1
    net = findroot(lambda d: poisson_up_to(n, blank + d) - beta, (mpf(3), mpf(20)), solver="illinois", maxsteps=200, tol=1e-25)
    return n - blank, net


def paired(blank, alpha, beta):
    def most(counted):
        y = counted
        while sum(binomial(y + 1 + counted, k) for k in range(y + 1, y + counted + 2)) / mpf(2) ** (y + 1 + counted) > alpha:
            y += 1
        return y

    def miss(d):
        return sum(exp(-blank) * mpf(blank) ** b / factorial(b) * poisson_up_to(most(b), blank + d) for b in range(40))

    return most(blank) - blank, findroot(lambda d: miss(d) - beta, (mpf(5), mpf(25)), solver="illinois", maxsteps=200, tol=1e-25)


for blank in (0, 2, 4):
    print("well known", blank, *(mp.nstr(v, 12) for v in well_known(mpf(blank), mpf("0.05"), mpf("0.1"))))
    print("paired", blank, *(mp.nstr(v, 12) for v in paired(blank, mpf("0.05"), mpf("0.1"))))

# weighted calibration line, by the normal equations and the law of propagation with their covariance
x = [mpf(v) for v in ("0", "1", "2", "5", "10")]
y = [mpf(v) for v in ("0.02", "1.05", "2.01", "5.1", "9.95")]
sd = [mpf(v) for v in ("0.01", "0.02", "0.03", "0.07", "0.11")]
y0, m, sd0 = mpf("3.4"), 3, mpf("0.05")
normal = matrix(2, 2)
right = matrix(2, 1)
for xi, yi, si in zip(x, y, sd):
    for i, a in enumerate((1, xi)):
        right[i] += a * yi / si**2
        for j, b in enumerate((1, xi)):
            normal[i, j] += a * b / si**2
cov = inverse(normal)
a, b = cov * right
chi = sum(((yi - a - b * xi) / si) ** 2 for xi, yi, si in zip(x, y, sd)) / (len(x) - 2)
x0 = (y0 - a) / b
u2 = (sd0**2 / m + cov[0, 0] + x0**2 * cov[1, 1] + 2 * x0 * cov[0, 1]) / b**2
print("weighted", *(mp.nstr(v, 12) for v in (a, b, x0, sqrt(u2), sqrt(chi * u2), sqrt(chi))))
