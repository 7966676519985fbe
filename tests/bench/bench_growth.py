"""What compiling costs as a garment grows: 10, 100, 1000 pieces, and 1 to 12 sizes. Growth has to be linear.

Run by hand: ``python tests/bench/bench_growth.py``. Prints the time of each stage per piece, and how it compares with that
of the smallest garment; a ratio near 1 is linear growth.
"""

from __future__ import annotations

import time
from collections.abc import Iterator

from garmentc.assembly.assemble import assemble
from garmentc.data.charts import read_chart
from garmentc.data.model import Body
from garmentc.design.library import Library
from garmentc.design.project import Project
from garmentc.design.resolve import resolve
from garmentc.diagnostics.finding import Findings
from garmentc.draft.draft import draft
from garmentc.host import DiskHost
from garmentc.output.patterns.files import pattern_files
from garmentc.source import Source
from garmentc.syntax.parser import Parser

COUNTS = (10, 100, 1000)
SIZES = (1, 2, 4, 8, 12)
PIECES_BY_SIZE = 30
STAGES = ("read", "resolve", "draft", "assemble", "write")
HOST = DiskHost()


def patchwork(count: int) -> str:
    """A long patchwork: panels with a curved end, a dart and a notch, each sewn to the one before."""
    lines = ['garment turnstone "Turnstone, a long patchwork"', "edition 1", "measure bust_girth", ""]
    for i in range(count):
        before, after = (400 + 37 * at % 301 for at in (i, i + 1))  # mm: seams of many lengths
        lines += [
            f'piece panel_{i} "Panel {i}" {{',
            "  cut 1",
            "  grain straight",
            f"  wide = bust_girth / 8 + {i % 7} mm",
            f"  corner = (wide, {after} mm)",
            "  outline {",
            "    lower : (0 cm, 0 cm) -> (wide, 0 cm) arc bulge 8 mm",
            "    after : (wide, 0 cm) -> corner",
            f"    upper : corner -> (0 cm, {before} mm) curve",
            f"    before : (0 cm, {before} mm) -> (0 cm, 0 cm)",
            "  }",
            "  dart small on upper at 50 % to (wide / 2, 30 cm) taking 12 mm",
            "  notch on after at 40 %",
            "}",
        ]
    lines += [f"seam join_{i} joins panel_{i}.after with panel_{i + 1}.before as plain" for i in range(count - 1)]
    lines += [f"finish panel_{i}.lower, panel_{i}.upper as overedged" for i in range(count)]
    lines.append(f"finish panel_0.before, panel_{count - 1}.after as overedged")
    return "\n".join(lines) + "\n"


def timed(text: str, bodies: tuple[Body, ...]) -> list[float]:
    """Seconds of each stage."""
    findings = Findings()
    parser = Parser(HOST)
    library = Library(HOST, parser)

    def stages() -> Iterator[None]:
        file = Project(HOST, parser).file(Source("turnstone.garment", text), findings)
        yield
        design = resolve(file, library, {}, findings, drawn=True)
        assert design is not None
        yield
        drafts = [draft(design, body, findings) for body in bodies]
        yield
        made = [assemble(one[0], one[1].values, findings) for one in drafts if one is not None]
        yield
        for assembly in made:
            assert assembly is not None
            pattern_files(assembly)
        yield

    spent = []
    begin = time.process_time()
    for _ in stages():
        spent.append(time.process_time() - begin)
        begin = time.process_time()
    assert not findings.has_errors, list(findings)[:2]
    return spent


def main() -> None:
    chart = read_chart(HOST, "specs/sizes/women-en13402.yaml", Findings())
    assert chart is not None
    timed(patchwork(4), chart.bodies[:1])  # what is imported on the way does not count
    print("one size; ms per piece, and against the fewest pieces")
    first: list[float] = []
    for count in COUNTS:
        runs = max(1, 100 // count)
        tried = [timed(patchwork(count), chart.bodies[:1]) for _ in range(runs)]
        each = [1000 * min(stage) / count for stage in zip(*tried, strict=True)]
        each.append(sum(each))
        first = first or each
        shown = ", ".join(
            f"{name} {ms:.2f} (x{ms / base:.2f})" for name, ms, base in zip((*STAGES, "all"), each, first, strict=True)
        )
        print(f"  {count:5} pieces: {shown}")
    print(f"{PIECES_BY_SIZE} pieces; ms per size after reading and resolving, and against one size")
    base = 0.0
    for sizes in SIZES:
        spent = timed(patchwork(PIECES_BY_SIZE), chart.bodies[:sizes])
        ms = 1000 * sum(spent[2:]) / sizes
        base = base or ms
        print(f"  {sizes:5} sizes: {ms:.0f} (x{ms / base:.2f})")


if __name__ == "__main__":
    main()
