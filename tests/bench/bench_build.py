"""Times whole processes and prints ratios: ``python tests/bench/bench_build.py``. Median of five, run in turn."""

import os
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).parents[2]
SPEC, CHART = "specs/tern.garment", "specs/sizes/women-en13402.yaml"
RUNS = 5


def commands(out: Path) -> dict[str, list[str]]:
    garmentc = [sys.executable, "-m", "garmentc"]
    build = [*garmentc, "build", SPEC, "--sizes", CHART, "--out", str(out), "--patterns-only"]
    return {
        "build, 12 sizes": build,
        "build, 1 size": [*build, "--only", "88"],
        "reference": [sys.executable, "tests/bench/reference.py", str(out)],
        "build, all outputs": build[:-1],
        "check": [*garmentc, "check", SPEC],
        "check, 12 sizes": [*garmentc, "check", SPEC, "--sizes", CHART],
        "interpreter": [sys.executable, "-c", "pass"],
    }


def measure() -> dict[str, float]:
    environment = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    times: dict[str, list[float]] = {}
    for run in range(RUNS + 1):  # the first run compiles bytecode and is not counted
        for name in commands(Path()):
            with tempfile.TemporaryDirectory() as out:
                command = commands(Path(out))[name]
                began = time.perf_counter()
                subprocess.run(command, cwd=ROOT, check=True, capture_output=True, env=environment)
                if run:
                    times.setdefault(name, []).append(time.perf_counter() - began)
    return {name: statistics.median(found) for name, found in times.items()}


def main() -> None:
    medians = measure()
    for name, seconds in medians.items():
        print(f"{name:20} {seconds * 1000:7.0f} ms")
    ratio = medians["build, 12 sizes"] / medians["reference"]
    further = (medians["build, 12 sizes"] - medians["build, 1 size"]) / 11
    print(f"build / reference    {ratio:7.2f}      (aim: at most 2.5)")
    print(f"each further size    {further * 1000:7.1f} ms   (aim: at most 10)")
    print(f"check                {medians['check'] * 1000:7.0f} ms   (aim: at most 250)")


if __name__ == "__main__":
    main()
