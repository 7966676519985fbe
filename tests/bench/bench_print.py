"""Prints 12 sizes of tern over each other on A4 and prints ratios: ``python tests/bench/bench_print.py``. Median of five."""

import math
import os
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))
SPEC, CHART = "specs/tern.garment", "specs/sizes/women-en13402.yaml"
RUNS = 5


def measure() -> tuple[float, int]:
    """Seconds of a whole process, and bytes of the file."""
    environment = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    times, size = [], 0
    for _ in range(RUNS + 1):  # the first run compiles bytecode and is not counted
        with tempfile.TemporaryDirectory() as folder:
            out = Path(folder) / "tern.pdf"
            command = [sys.executable, "-m", "garmentc", "print", SPEC, "--sizes", CHART, "--out", str(out)]
            began = time.perf_counter()
            subprocess.run(command, cwd=ROOT, check=True, capture_output=True, env=environment)
            times.append(time.perf_counter() - began)
            size = out.stat().st_size
    return statistics.median(times[1:]), size


def pages() -> tuple[int, int]:
    """How many pages hold pieces, and how many the area of the pieces and the gaps between them would fill."""
    from shapely import Polygon, unary_union

    from garmentc.output.paper.arrange import CELL
    from garmentc.output.paper.papers import read_paper
    from tests.paper.printing import pieces, printed

    area = sum(
        unary_union([Polygon([(p.real, p.imag) for p in ring]).buffer(CELL / 2) for ring in piece.rings]).area
        for piece in pieces("tern")
    )
    across, up = read_paper("a4").step
    return printed("tern", "", "a4").tiles, math.ceil(area / (across * up))


def main() -> None:
    os.chdir(ROOT)
    seconds, size = measure()
    used, bound = pages()
    print(f"print, 12 sizes on A4  {seconds:6.2f} s    (aim: under 1.5)")
    print(f"size of the file       {size / 1e6:6.3f} MB   (aim: under 1)")
    print(f"pages / area bound     {used / bound:6.2f}      (aim: at most 1.15; {used} pages, bound {bound})")


if __name__ == "__main__":
    main()
