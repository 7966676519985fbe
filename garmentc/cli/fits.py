"""``garmentc fits``."""

from __future__ import annotations

import posixpath
import sys
from argparse import Namespace
from collections.abc import Callable, Mapping, Sequence
from contextlib import closing
from typing import TYPE_CHECKING, TypeVar

from garmentc.cli.cloths import cloth_path, part_and_stock
from garmentc.cli.codes import BROKEN_OFF, FAULT
from garmentc.cli.compile import request_of
from garmentc.cli.out import show
from garmentc.cli.progress import Progress
from garmentc.cli.report import exit_code, report
from garmentc.data.lengths import parse_length
from garmentc.diagnostics.finding import Findings
from garmentc.host import Host, names_in
from garmentc.pipeline import compile_here
from garmentc.record import Record

if TYPE_CHECKING:
    from garmentc.assembly.model import Assembly
    from garmentc.cloth.model import Ground
    from garmentc.data.plans import SavedPlan
    from garmentc.data.stock import Cloth
    from garmentc.output.texts.speech import Voice

_MANY = 10**9  # steps: only the time ends a search
Item = TypeVar("Item")
Answer = TypeVar("Answer")


class _Cell(Record):
    """A size of a garment that is to be laid on a cloth."""

    assembly: Assembly
    part: str
    ground: Ground
    saved: SavedPlan | None


def fits_command(host: Host, options: Namespace) -> int:
    """Show which cloths give which sizes, or how large a cloth each size needs, unless there is an error."""
    from garmentc.output.texts.speech import Voice

    request = request_of(options)
    if request is None:
        return FAULT
    compiled = compile_here(host, request)
    findings = compiled.findings
    if findings.has_errors or not compiled.made:
        report(findings, options, "nothing laid")
        return exit_code(findings)
    voice = Voice(inches=options.unit == "inch")
    if options.cloth:
        return _cloths(host, options, compiled.made, voice, findings)
    return _needs(host, options, compiled.made, voice, findings)


def _cloths(host: Host, options: Namespace, made: Sequence[Assembly], voice: Voice, findings: Findings) -> int:
    """Cloths against sizes."""
    from garmentc.cloth.finder import Limits
    from garmentc.cloth.fit import Fit, fit
    from garmentc.cloth.ground import ground
    from garmentc.laying import kept_plan
    from garmentc.output.fits.model import FitTable
    from garmentc.output.fits.picture import fits_picture
    from garmentc.output.fits.tables import fits_csv, fits_json, fits_text

    asked = _stock(host, options.cloth, made[0], findings)
    if asked is None:
        return FAULT
    if findings.has_errors:
        report(findings, options, "nothing laid")
        return exit_code(findings)
    cells = [
        _Cell(assembly, part, ground(cloth), kept_plan(host, options.spec, assembly, part, cloth))
        for part, cloths in asked.items()
        for cloth in cloths
        for assembly in made
    ]
    limits = Limits(_MANY, options.seed, options.limit)

    def answer(cell: _Cell) -> Fit:
        return fit(cell.assembly, cell.part, cell.ground, cell.saved, limits)

    found = {(one.part, one.cloth, one.size): one for one in _each(answer, cells)}
    design, sizes = made[0].draft.design, tuple(one.draft.body.name for one in made)
    tables = tuple(
        FitTable(
            design.name,
            design.title,
            part,
            len(asked) > 1,
            sizes,
            {cloth.key: cloth.title for cloth in cloths},
            {(cloth, size): one for (of, cloth, size), one in found.items() if of == part},
            options.limit,
        )
        for part, cloths in asked.items()
    )
    if options.table == "svg":
        text = fits_picture(tables).decode()
    elif options.table == "csv":
        text = fits_csv(tables)
    else:
        text = fits_json(tables) if options.table == "json" else f"{fits_text(tables)}\n"
    return _told(host, options, text, f"{len(found)} of {len(cells)} looked at", len(found) < len(cells), findings)


def _needs(host: Host, options: Namespace, made: Sequence[Assembly], voice: Voice, findings: Findings) -> int:
    """How large a square each size needs, or how long a cloth of some width."""
    from garmentc.cloth.finder import Limits
    from garmentc.cloth.fit import Need, need
    from garmentc.cloth.ground import rectangle
    from garmentc.cloth.shapes import cloth_names
    from garmentc.output.fits.model import NeedTable
    from garmentc.output.fits.tables import needs_csv, needs_json, needs_text

    width, hem = (None if text is None else parse_length(text) for text in (options.width, options.hem))
    if (width is None) != (options.width is None) or (hem is None) != (options.hem is None):
        print("garmentc: --width and --hem take lengths such as 140 cm and 6 mm", file=sys.stderr)
        return FAULT
    if options.table == "svg":
        print("garmentc: --as svg is a picture of cloths against sizes: name the cloths with --cloth", file=sys.stderr)
        return FAULT
    asked = [(assembly, part) for assembly in made for part in cloth_names(assembly)]
    limits = Limits(_MANY, options.seed, options.limit)

    def answer(one: tuple[Assembly, str]) -> Need:
        assembly, part = one
        return need(assembly, part, lambda size: rectangle(size, width or size, hem), limits)

    sizes = [assembly.draft.body.name for assembly in made]
    found = sorted(_each(answer, asked), key=lambda one: sizes.index(one.size))
    design = made[0].draft.design
    table = NeedTable(design.name, design.title, width, hem, tuple(found), options.limit)
    if options.table == "csv":
        text = needs_csv(table)
    else:
        text = needs_json(table) if options.table == "json" else f"{needs_text(table, voice)}\n"
    return _told(host, options, text, f"{len(found)} of {len(asked)} looked at", len(found) < len(asked), findings)


def _each(answer: Callable[[Item], Answer], items: Sequence[Item]) -> list[Answer]:
    """Answers for items on all cores, in any order; those that there are when a person breaks off (Ctrl-C)."""
    from garmentc.spread import stream

    bar = Progress(len(items))
    found: list[Answer] = []
    try:
        with closing(stream(answer, items)) as answers:  # type: ignore[type-var]
            for one in answers:
                found.append(one)
                bar.show(len(found))
    except KeyboardInterrupt:
        pass
    bar.clear()
    return found


def _told(host: Host, options: Namespace, text: str, told: str, broken_off: bool, findings: Findings) -> int:
    if not show(host, options, text):
        return FAULT
    if options.out is not None:
        told += f", written to {options.out}"
    report(findings, options, told + (", then broken off" if broken_off else ""))
    return BROKEN_OFF if broken_off else exit_code(findings)


def _stock(
    host: Host, given: Sequence[str], assembly: Assembly, findings: Findings
) -> Mapping[str, list[Cloth]] | None:
    """The cloths that are named for each cloth of the garment; None, and said so, where that is not clear."""
    from garmentc.cloth.shapes import cloth_names
    from garmentc.data.cloths import read_cloth

    names = cloth_names(assembly)
    found: dict[str, list[Cloth]] = {}
    for one in given:
        meant = part_and_stock(one, names)
        if meant is None:
            return None
        part, stock = meant
        files = _files(stock)
        if not files:
            print(f"garmentc: --cloth {one}: there is no cloth (a .yaml file) in that folder", file=sys.stderr)
            return None
        cloths = [cloth for file in files if (cloth := read_cloth(host, file, findings)) is not None]
        sold = [cloth.key for cloth in cloths if cloth.by_metre]
        if sold:
            print(f"garmentc: {', '.join(sold)}: sold by the metre; garmentc by-metre tells how much", file=sys.stderr)
        found.setdefault(part, []).extend(cloth for cloth in cloths if not cloth.by_metre)
    return found


def _files(stock: str) -> list[str]:
    """The files of a stock: all of a folder, or one that is named."""
    try:
        names = names_in(stock)
    except OSError:
        return [cloth_path(stock)]
    return [posixpath.join(stock, name) for name in names if name.endswith((".yaml", ".yml"))]
