"""Peer of benchmark P5: pandas.read_csv on the file named by the first argument, with nothing told about it.

Prints one JSON line: milliseconds, milliseconds of processor time, and the most memory in MB held above what the
process held before reading. Columns with limits of detection ("<3.0") stay texts, as read_csv leaves them.
"""
import json
import resource
import sys
import time

import pandas


def held():
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024


before = held()
start = time.perf_counter()
cpu = time.process_time()
table = pandas.read_csv(sys.argv[1])
ms = (time.perf_counter() - start) * 1000
cpu_ms = (time.process_time() - cpu) * 1000
assert table.shape == (1_000_000, 12), table.shape
print(json.dumps({'ms': ms, 'cpuMs': cpu_ms, 'memoryMb': held() - before}))
