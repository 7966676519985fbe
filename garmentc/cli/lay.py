"""``garmentc lay``."""

from __future__ import annotations

import posixpath
import sys
from argparse import Namespace
from collections.abc import Sequence
from typing import TYPE_CHECKING

from garmentc.cli.cloths import cloth_path, part_and_stock
from garmentc.cli.codes import BROKEN_OFF, FAULT
from garmentc.cli.progress import Progress
from garmentc.cli.report import exit_code, report
from garmentc.diagnostics.finding import Findings
from garmentc.host import Host, seconds
from garmentc.pipeline import Request, compile_here

if TYPE_CHECKING:
    from garmentc.assembly.model import Assembly
    from garmentc.cloth.model import Plan
    from garmentc.data.stock import Cloth
    from garmentc.laying import Laid

_MANY = 10**9  # steps: only the time ends a search
_OTHERS = 6  # plans that are looked for beside the first, for what they leave


def lay_command(host: Host, options: Namespace) -> int:
    """Find or verify a plan for each cloth that is named, keep it, and write it, unless there is an error."""
    if (options.sizes is None) != (options.size is None):
        print("garmentc: a size is one of a chart: give --size and --sizes together, or --body", file=sys.stderr)
        return FAULT
    only = [] if options.size is None else [options.size]
    compiled = compile_here(host, Request(options.spec, options.sizes, options.body, only, options.settings))
    findings = compiled.findings
    if findings.has_errors or not compiled.made:
        report(findings, options, "nothing laid")
        return exit_code(findings)
    assembly = compiled.made[0]
    asked = _asked(options.cloth, assembly)
    if asked is None:
        return FAULT
    told: list[str] = []
    for part, path in asked:
        try:
            words = _lay_one(host, options, assembly, part, path, findings)
        except KeyboardInterrupt:
            report(findings, options, "broken off before a plan was found")
            return BROKEN_OFF
        except OSError as fault:
            print(f"garmentc: can't write: {fault.strerror or fault}: '{fault.filename}'", file=sys.stderr)
            return FAULT
        told.append(words)
    report(findings, options, "; ".join(told))
    return exit_code(findings)


def _asked(given: Sequence[str], assembly: Assembly) -> list[tuple[str, str]] | None:
    """Which cloth of the garment is cut from which file; None, and said so, when that is not clear."""
    from garmentc.cloth.shapes import cloth_names

    names = cloth_names(assembly)
    found: dict[str, str] = {}
    for one in given:
        meant = part_and_stock(one, names)
        if meant is None:
            return None
        part, cloth = meant
        if part in found:
            print(f"garmentc: --cloth {one}: the cloth `{part}` of the garment is given twice", file=sys.stderr)
            return None
        found[part] = cloth_path(cloth)
    return list(found.items())


def _lay_one(host: Host, options: Namespace, assembly: Assembly, part: str, path: str, findings: Findings) -> str:
    """Lay what is cut from one cloth, and draw it if asked for; what came of it, in words."""
    from garmentc.cloth.finder import Limits
    from garmentc.cloth.leftover import largest
    from garmentc.laying import lay_on

    began = seconds()
    whole = max(round(options.limit), 1)
    bar = Progress(whole)

    def tell(step: int) -> None:
        bar.show(min(int(seconds() - began), whole), f" s, {step:,} places tried")

    limits = Limits(_MANY, options.seed, options.limit, tell, _OTHERS, largest)
    laid = lay_on(host, options.spec, assembly, part, path, limits, findings)
    bar.clear()
    if laid is None:
        return "nothing laid"
    key, laying = laid.cloth.key, laid.laying
    if laying.plan is None:
        return f"nothing laid on {key}" + (", broken off" if laying.broken_off else "")
    if laying.held:
        found = f"the plan kept in {laid.kept} holds"
    elif laying.broken_off:
        found = f"broken off; the best plan until then is kept in {laid.kept}"
    else:
        found = f"a plan was found in {laid.took:.1f} s and kept in {laid.kept}"
    told = f"{key}: {found}, {100 * laying.plan.used:.0f} % used"
    return told + _write(host, options, assembly, laying.plan, laid, path) if options.out is not None else told


def _write(host: Host, options: Namespace, assembly: Assembly, plan: Plan, laid: Laid, path: str) -> str:
    """Write the drawings and pages of a plan; what was written, in words."""
    from garmentc.output.lay.drawing import show
    from garmentc.output.lay.files import plan_files
    from garmentc.output.texts.speech import Voice
    from garmentc.output.write import folders, write_files

    cloth = laid.cloth
    voice = Voice(inches=options.unit == "inch")
    shown = show(assembly, plan, voice)
    photo, without = _photo(host, cloth, path)
    try:
        files = plan_files(shown, cloth, photo, kept=laid.kept)
    except ValueError as fault:
        without = f", without its photo: {fault}"
        files = plan_files(shown, cloth, None, kept=laid.kept)
    below = f"{folders([assembly.draft.body.name])[0]}/{cloth.key}"
    write_files(host, options.out, [(f"{below}/{name}", data) for name, data in files])
    return f", drawn in {posixpath.join(options.out, below)}{without}"


def _photo(host: Host, cloth: Cloth, path: str) -> tuple[bytes | None, str]:
    """The file of the photo that a cloth names, and in words what is wrong with it."""
    if cloth.photo is None:
        return None, ""
    try:
        return host.read(posixpath.join(posixpath.dirname(path), cloth.photo.file)), ""
    except OSError as fault:
        return None, f", without its photo {cloth.photo.file}: {fault.strerror or fault}"
