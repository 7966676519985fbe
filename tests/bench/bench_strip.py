"""Packs strips and prints how dense they get: ``python tests/bench/bench_strip.py --instances FOLDER``.

The folder (or the variable GARMENTC_PACKING) holds public instances of irregular strip packing as JSON files, as the
research code of arXiv 2509.13329 writes them, and a README.md with a table that gives the best known density of each.
Without one, strips that were cut up without waste are packed. Each task is given to the project's packer and to the bare
library, one after the other, for the same time on all cores.
"""

import argparse
import json
import math
import os
import re
import sys
from collections.abc import Callable
from pathlib import Path

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))

from garmentc.aside import search_aside  # noqa: E402
from garmentc.packing.model import Shape, StripTask, density  # noqa: E402
from garmentc.packing.strip import pack  # noqa: E402
from garmentc.packing.verify import plan_faults  # noqa: E402
from garmentc.spread import cores  # noqa: E402
from tests.packing.cutup import cut_up  # noqa: E402

GRACE = 30.0  # s that the bare library may be late

Case = tuple[str, StripTask, float]
"""A name, a task, and the best known density in %."""


def public_cases(folder: Path) -> list[Case]:
    rows = re.findall(r"^\|\s*(\w+)\s*\|\s*\d+\s*\|[^|]*\|\s*([\d.]+)\s*\|", (folder / "README.md").read_text(), re.M)
    return [(name, read_task(folder / f"{name}.json"), float(best)) for name, best in rows]


def read_task(path: Path) -> StripTask:
    """A task in mm, its strip scaled to 1.4 m so that tolerances mean what they mean for cloth."""
    data = json.loads(path.read_text())
    scale = 1400.0 / data["strip_height"]
    shapes = []
    for item in data["items"]:
        ring = [complex(x, y) * scale for x, y in item["shape"]["data"]]
        ring = ring[:-1] if ring[0] == ring[-1] else ring
        turns = tuple(math.radians(angle) for angle in item["allowed_orientations"])
        shape = Shape(str(item["id"]), tuple(ring), turns, item["demand"])
        shapes.append(shape if shape.area > 0 else shape._replace(corners=tuple(reversed(ring))))
    return StripTask(1400.0, tuple(shapes))


def bare(wanted: tuple[StripTask, int, int], tell: Callable[[float], None]) -> None:
    """The library as it is: its own split of the time, a thread for each core."""
    import spyrrow

    task, limit, seed = wanted
    items = [
        spyrrow.Item(
            str(index), [(p.real, p.imag) for p in shape.corners], shape.number, [math.degrees(t) for t in shape.turns]
        )
        for index, shape in enumerate(task.shapes)
    ]
    config = spyrrow.StripPackingConfig(
        early_termination=False, total_computation_time=limit, num_workers=cores(), seed=seed
    )
    tell(spyrrow.StripPackingInstance("strip", task.width, items).solve(config).width)


def bare_length(task: StripTask, limit: int, seed: int) -> float:
    lengths: list[float] = []
    search_aside(bare, [(task, limit, seed)], lambda _, length: lengths.append(length), limit + GRACE)
    return lengths[-1]


def main() -> None:
    options = argparse.ArgumentParser()
    options.add_argument("--instances", type=Path, default=os.environ.get("GARMENTC_PACKING"))
    options.add_argument("--limit", type=int, default=40, help="seconds for each")
    options.add_argument("--seed", type=int, default=1)
    options.add_argument("--only", default="", help="names, with commas between")
    options.add_argument("--no-bare", action="store_true", help="without the bare library")
    given = options.parse_args()
    cases: list[Case] = (
        public_cases(Path(given.instances))
        if given.instances
        else [(f"cut up {seed}", cut_up(seed, cuts=11), 100.0) for seed in (1, 2, 3)]
    )
    if given.only:
        cases = [case for case in cases if case[0] in given.only.split(",")]
    print(f"{given.limit} s on {cores()} cores; density in %", flush=True)
    gaps, losses = [], []
    for name, task, best in cases:
        packed = pack(task, given.limit, given.seed)
        assert not plan_faults(task, packed.plan)
        ours, begun = (100 * density(task, length) for length in (packed.plan.length, packed.bare))
        gaps.append(best - ours)
        told = f"{name:10} best known {best:6.2f}   ours {ours:6.2f}   gap {gaps[-1]:5.2f}   library within it {begun:6.2f}"
        if not given.no_bare:
            alone = 100 * density(task, bare_length(task, given.limit, given.seed))
            losses.append(alone - ours)
            told += f"   library alone {alone:6.2f}   worse by {losses[-1]:5.2f}"
        print(told, flush=True)
    print(f"mean gap {sum(gaps) / len(gaps):.2f} points (aim: at most 3.5)")
    if losses:
        print(f"worse than the library alone by {max(losses):.2f} at most (aim: 0.3)")


if __name__ == "__main__":
    main()
