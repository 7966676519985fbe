"""Changes one ease of tern while it is watched: ``python tests/bench/bench_watch.py``.

Prints how long it takes from the save until the new SVGs of all 12 sizes are on disk, as the median of ten changes, for
patterns only and with sheets and model.
"""

import re
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).parents[2]
CHART = ROOT / "specs" / "sizes" / "women-en13402.yaml"
CHANGES = 10


def stamps(out: Path) -> dict[str, int]:
    return {path.parent.name: path.stat().st_mtime_ns for path in out.glob("*/all-pieces.svg")}


def wait_for(out: Path, before: dict[str, int], began: float) -> float:
    """Seconds from the save until the last SVG of all 12 sizes is new."""
    while time.time() - began < 20.0:
        now = stamps(out)
        if len(now) == 12 and all(now[size] != before.get(size) for size in now):
            return max(now.values()) / 1e9 - began
        time.sleep(0.03)  # mtimes tell the time; looking all the time would take it from the compiler
    raise TimeoutError("no new SVGs after 20 s")


def measure(options: list[str]) -> list[float]:
    with tempfile.TemporaryDirectory() as name:
        spec, out = Path(name) / "tern.garment", Path(name) / "out"
        shutil.copy(ROOT / "specs" / "tern.garment", spec)
        text = spec.read_text(encoding="utf-8")
        command = [sys.executable, "-m", "garmentc", "watch", str(spec), "--sizes", str(CHART), "--out", str(out)]
        with subprocess.Popen([*command, *options], cwd=ROOT, stderr=subprocess.PIPE, text=True) as watching:
            assert watching.stderr is not None
            try:
                while "watching" not in watching.stderr.readline():
                    pass
                time.sleep(0.5)
                found = []
                for change in range(CHANGES):
                    before, began = stamps(out), time.time()
                    spec.write_text(
                        re.sub(r"(ease bust_girth = )4 cm", rf"\g<1>{5 + change} cm", text), encoding="utf-8"
                    )
                    found.append(wait_for(out, before, began))
                    time.sleep(2.0)  # the comparison and the sheets of this round are made meanwhile
            finally:
                watching.terminate()
        return found


def main() -> None:
    for told, options in (("patterns only", ["--patterns-only"]), ("all outputs", [])):
        found = measure(options)
        print(f"{told:15} {statistics.median(found) * 1000:5.0f} ms from save to SVGs of 12 sizes  (aim: at most 350)")


if __name__ == "__main__":
    main()
