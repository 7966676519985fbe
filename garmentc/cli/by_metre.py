"""``garmentc by-metre``."""

from __future__ import annotations

import sys
from argparse import Namespace
from collections.abc import Sequence
from typing import TYPE_CHECKING

from garmentc.cli.cloths import cloth_path
from garmentc.cli.codes import CLEAN, FAULT, FINDINGS
from garmentc.cli.compile import request_of
from garmentc.cli.out import show
from garmentc.cli.progress import Progress
from garmentc.cli.report import exit_code, report
from garmentc.data.lengths import parse_length
from garmentc.data.stock import Cloth
from garmentc.diagnostics.finding import Findings
from garmentc.host import Host
from garmentc.pipeline import compile_here

if TYPE_CHECKING:
    from garmentc.assembly.model import Assembly
    from garmentc.output.metre.tables import MetreTable


def by_metre_command(host: Host, options: Namespace) -> int:
    """Show what length of a cloth each size needs, or write it with ``--out``, unless there is an error."""
    from garmentc.cloth.metre import MetreNeed, Roll, metre_need
    from garmentc.cloth.shapes import cloth_names
    from garmentc.output.metre.tables import MetreTable, metre_csv, metre_json, metre_text

    request = request_of(options)
    if request is None:
        return FAULT
    compiled = compile_here(host, request)
    design, findings = compiled.design, compiled.findings
    cloth = _cloth(host, options, findings)
    if cloth is None and not findings.has_errors:
        return FAULT
    if findings.has_errors or design is None or cloth is None or not compiled.made:
        report(findings, options, "nothing laid")
        return exit_code(findings)
    roll = Roll(cloth, options.folded, options.limit, options.seed)
    asked = [(assembly, name) for assembly in compiled.made for name in cloth_names(assembly)]
    bar = Progress(len(asked))
    needs: list[MetreNeed] = []
    for assembly, name in asked:
        bar.show(len(needs), f", size {assembly.draft.body.name}")
        needs.append(metre_need(assembly, name, roll))
        if needs[-1].broken_off:
            break
    bar.clear()
    table = MetreTable(design.name, design.title, roll, tuple(needs))
    if options.table == "csv":
        text = metre_csv(table)
    elif options.table == "json":
        text = metre_json(table)
    else:
        text = metre_text(table) + "\n"
    laid = sum(not need.obstacles for need in needs)
    told = f"{laid} of {len(asked)} laid" + (", then broken off" if needs[-1].broken_off else "")
    if not show(host, options, text):
        return FAULT
    if options.out is not None:
        told += f", written to {options.out}"
    if options.draw is not None:
        try:
            told += f", {_draw(host, options, asked, table)} plans drawn below {options.draw}"
        except OSError as fault:
            print(f"garmentc: can't write below '{options.draw}': {fault.strerror or fault}", file=sys.stderr)
            return FAULT
    report(findings, options, told)
    return exit_code(findings) or (CLEAN if laid == len(needs) else FINDINGS)


def _draw(host: Host, options: Namespace, asked: Sequence[tuple[Assembly, str]], table: MetreTable) -> int:
    """Write the plan of each stretch as drawings and as a page; how many there are."""
    from garmentc.output.lay.drawing import show
    from garmentc.output.lay.files import plan_files
    from garmentc.output.texts.speech import Voice
    from garmentc.output.write import folders, write_files

    voice, several = Voice(inches=options.unit == "inch"), len({need.cloth for need in table.needs}) > 1
    sizes = list(dict.fromkeys(need.size for need in table.needs))
    named = dict(zip(sizes, folders(sizes), strict=True))
    drawn = 0
    for (assembly, _), need in zip(asked, table.needs, strict=False):
        for number, stretch in enumerate(need.stretches, 1):
            shown = show(assembly, stretch.plan, voice, folded=stretch.is_folded, upper_only=stretch.upper_only)
            parts = [named[need.size], *([need.cloth] if several else [])]
            below = "/".join([*parts, *([f"stretch-{number}"] if len(need.stretches) > 1 else [])])
            files = plan_files(shown, table.roll.cloth)
            write_files(host, options.draw, [(f"{below}/{name}", data) for name, data in files])
            drawn += 1
    return drawn


def _cloth(host: Host, options: Namespace, findings: Findings) -> Cloth | None:
    """The cloth that the options name; None, and said so or found, when it is none by the metre."""
    from garmentc.cloth.metre import new_cloth
    from garmentc.data.cloths import read_cloth

    if options.cloth is not None:
        cloth = read_cloth(host, cloth_path(options.cloth), findings)
        if cloth is not None and not cloth.by_metre:
            print(f"garmentc: '{options.cloth}' has a size of its own: give one sold by length", file=sys.stderr)
            return None
        return cloth
    lengths = [parse_length(text) for text in (options.width, options.selvage)]
    width, selvage = lengths
    if width is None or selvage is None or 2 * selvage >= width:
        wrong = f"--width {options.width} --selvage {options.selvage}"
        print(f"garmentc: {wrong}: give lengths such as 140 cm and 1 cm", file=sys.stderr)
        return None
    return new_cloth(width, selvage, is_one_way=options.one_way, is_alike=options.alike)
