"""Made-to-measure for 1,000 bodies of tern, patterns only: ``python tests/bench/bench_batch.py``.

Prints bodies per second and core, the largest memory of any process for a tenth of the bodies and for all of them (it
should be the same), and how long it takes to find all of them made.
"""

import os
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import NamedTuple

ROOT = Path(__file__).parents[2]
BODIES = 1000


def table(path: Path, count: int) -> None:
    rows = [f"body{n},{78 + n % 450 / 10:.1f},{38 + n % 70 / 10:.1f}" for n in range(count)]
    path.write_text("\n".join(["body,bust_girth cm,strap_path cm", *rows]) + "\n", encoding="utf-8")


class Run(NamedTuple):
    """Seconds by the clock and of all processors, and MB of the largest process (of all runs so far: few bodies first)."""

    seconds: float
    work: float
    memory: float


def run(folder: Path, count: int, out: str) -> Run:
    path = folder / f"{count}.csv"
    table(path, count)
    command = [sys.executable, "-m", "garmentc", "build", "specs/tern.garment", "--bodies", str(path)]
    before, began = resource.getrusage(resource.RUSAGE_CHILDREN), time.perf_counter()
    subprocess.run([*command, "--out", str(folder / out), "--patterns-only"], cwd=ROOT, check=True, capture_output=True)
    after, seconds = resource.getrusage(resource.RUSAGE_CHILDREN), time.perf_counter() - began
    work = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    return Run(seconds, work, after.ru_maxrss / 1024)


def main() -> None:
    cores = len(os.sched_getaffinity(0))
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        few = run(folder, BODIES // 10, "few")
        many = run(folder, BODIES, "many")
        again = run(folder, BODIES, "many")
    print(f"{BODIES:,} bodies         {many.seconds:7.1f} s on {cores} cores")
    print(f"throughput           {BODIES / many.seconds / cores:7.1f} bodies per second and core")
    print(f"work                 {many.work / BODIES * 1000:7.1f} ms of processor time for each body")
    print(f"memory               {few.memory:7.0f} MB for {BODIES // 10}, {many.memory:.0f} MB for {BODIES:,}")
    print(f"all there already    {again.seconds:7.1f} s")


if __name__ == "__main__":
    main()
