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

ROOT = Path(__file__).parents[2]
BODIES = 1000


def table(path: Path, count: int) -> None:
    rows = [f"body{n},{78 + n % 450 / 10:.1f},{38 + n % 70 / 10:.1f}" for n in range(count)]
    path.write_text("\n".join(["body,bust_girth cm,strap_path cm", *rows]) + "\n", encoding="utf-8")


def run(folder: Path, count: int, out: str) -> tuple[float, float]:
    """Seconds, and the largest memory of the run's processes in MB (of all runs so far: call with few bodies first)."""
    path = folder / f"{count}.csv"
    table(path, count)
    command = [sys.executable, "-m", "garmentc", "build", "specs/tern.garment", "--bodies", str(path)]
    began = time.perf_counter()
    subprocess.run([*command, "--out", str(folder / out), "--patterns-only"], cwd=ROOT, check=True, capture_output=True)
    return time.perf_counter() - began, resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024


def main() -> None:
    cores = len(os.sched_getaffinity(0))
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        _, few = run(folder, BODIES // 10, "few")
        seconds, many = run(folder, BODIES, "many")
        again, _ = run(folder, BODIES, "many")
    print(f"{BODIES:,} bodies         {seconds:7.1f} s on {cores} cores")
    print(f"throughput           {BODIES / seconds / cores:7.1f} bodies per second and core")
    print(f"memory               {few:7.0f} MB for {BODIES // 10}, {many:.0f} MB for {BODIES:,} (largest process)")
    print(f"all there already    {again:7.1f} s")


if __name__ == "__main__":
    main()
