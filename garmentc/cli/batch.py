"""``garmentc build --bodies``: one garment for each row of a table."""

from __future__ import annotations

import gc
import sys
from argparse import Namespace
from collections.abc import Sequence

from garmentc.batch import FAILED, KEPT, MADE, Order, Outcome, ready
from garmentc.cli.codes import BROKEN_OFF, FAULT, FINDINGS
from garmentc.cli.progress import Progress
from garmentc.cli.report import exit_code, report
from garmentc.diagnostics.finding import Findings
from garmentc.host import Host

_MOST = 50  # bodies that failed, told of by name


def batch_command(host: Host, options: Namespace) -> int:
    """Make what can be made, and say at the end what could not, with the row of the table."""
    if options.only:
        print("garmentc: --only picks sizes of a chart; a batch makes all bodies of its table", file=sys.stderr)
        return FAULT
    gc.enable()  # a run of many bodies is long enough for it to pay
    findings = Findings()
    paper = options.sheet_pdf or ""
    inches = options.unit == "inch"
    order = Order(options.spec, options.bodies, options.out, options.settings, options.patterns_only, paper, inches)
    batch = ready(host, order, findings)
    if batch is None:
        report(findings, options, "nothing written")
        return exit_code(findings)
    outcomes: list[Outcome] = []
    progress = Progress(len(batch))
    failed = done = 0
    stopped = False
    try:
        for outcome in batch.run():
            done += 1
            failed += outcome.state == FAILED
            progress.show(done, f", {failed:,} failed" if failed else "")
            outcomes.append(outcome)
    except OSError as fault:
        progress.clear()
        print(f"garmentc: can't write below '{options.out}': {fault.strerror or fault}", file=sys.stderr)
        return FAULT
    except KeyboardInterrupt:
        stopped = True
    progress.clear()
    outcomes.sort(key=lambda outcome: outcome.line)
    for outcome in outcomes:
        for finding in outcome.findings:
            findings.add(finding)
    report(findings, options, _told(outcomes, len(batch), options.out))
    if options.format == "full":
        _list_failed(outcomes, options.bodies)
    if stopped:
        print("stopped; the same command goes on from here", file=sys.stderr)
        return BROKEN_OFF
    return FINDINGS if failed else exit_code(findings)


def _told(outcomes: Sequence[Outcome], whole: int, out: str) -> str:
    by_state = {state: [one for one in outcomes if one.state == state] for state in (MADE, KEPT, FAILED)}
    told = f"{len(by_state[MADE]):,} of {whole:,} bodies made in {out}"
    if by_state[KEPT]:
        told += f", {len(by_state[KEPT]):,} were there already"
    if by_state[FAILED]:
        told += f", {len(by_state[FAILED]):,} failed"
    return told


def _list_failed(outcomes: Sequence[Outcome], table: str) -> None:
    failed = [outcome for outcome in outcomes if outcome.state == FAILED]
    for outcome in failed[:_MOST]:
        print(f"  {table}:{outcome.line}: {outcome.name or '(no name)'}: {outcome.why}", file=sys.stderr)
    if len(failed) > _MOST:
        print(f"  and {len(failed) - _MOST:,} more; --format plain lists all findings", file=sys.stderr)
