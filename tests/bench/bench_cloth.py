"""Lays puzzles with a known solution on their cloths: ``python tests/bench/bench_cloth.py``.

Thirty cloths are cut up at random (rectangles of five sizes, a third with a flaw, some with hems on two or four sides, the
threads sometimes either way, the sides sometimes alike): 8 to 15 parts with straight and bent cuts, of which as many
are kept as cover a share of the cloth, from 60 % for the first to 90 % for the last. Each keeps its grain, straight or bias; some edges that lay on a hem have to
lie on one again; the parts are turned and shuffled. Each is given the same time. What is found is verified.
"""

import argparse
import statistics
import sys
import time
from pathlib import Path

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))

from garmentc.cloth.finder import Limits, find  # noqa: E402
from garmentc.cloth.model import Plan  # noqa: E402
from garmentc.cloth.proofs import impossible  # noqa: E402
from garmentc.cloth.verify import verify  # noqa: E402
from tests.cloth.puzzles import puzzle  # noqa: E402

MANY = 10**9


def main() -> None:
    options = argparse.ArgumentParser()
    options.add_argument("--limit", type=float, default=30.0, help="seconds for each")
    options.add_argument("--number", type=int, default=30, help="how many puzzles")
    options.add_argument("--first", type=int, default=101, help="the number of the first")
    options.add_argument("--seed", type=int, default=1)
    options.add_argument("--fill", type=float, nargs=2, default=(0.6, 0.9), help="least and greatest share kept")
    given = options.parse_args()
    took: list[float] = []
    called_impossible = 0
    for number in range(given.first, given.first + given.number):
        share = given.fill[0] + (given.fill[1] - given.fill[0]) * (number - given.first) / given.number
        ground, shapes, solution, fill = puzzle(number, keep=share)
        assert verify(Plan(ground, shapes, solution)) == ()
        began = time.perf_counter()
        reasons = impossible(ground, shapes)
        proving = time.perf_counter() - began
        called_impossible += bool(reasons)
        found = find(ground, shapes, {}, Limits(MANY, given.seed, given.limit - proving))
        seconds = time.perf_counter() - began
        hems = sum(bool(shape.hems) for shape in shapes)
        told = f"{number}: {len(shapes):2} shapes, {hems:2} on hems, {100 * fill:3.0f} % of the cloth: "
        if found.plan is None:
            print(f"{told}not found in {seconds:.1f} s, {found.steps} steps {' '.join(found.homeless)}", flush=True)
            continue
        assert verify(found.plan) == ()
        took.append(seconds)
        print(f"{told}found after {seconds:.1f} s, {found.steps} steps", flush=True)
    print(f"{len(took)} of {given.number} found in {given.limit:g} s (aim: at least 9 of 10)")
    if took:
        print(f"time to find one: median {statistics.median(took):.1f} s, at most {max(took):.1f} s")
    print(f"{called_impossible} called impossible (aim: none)")


if __name__ == "__main__":
    main()
