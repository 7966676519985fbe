"""The ``garmentc`` command: its words, its options, and which function answers."""

from __future__ import annotations

import argparse
import gc
import sys
from collections.abc import Sequence
from importlib import import_module
from typing import Any

from garmentc import __version__
from garmentc.cli.codes import FAULT
from garmentc.host import DiskHost, Host

_CODES = "exit codes: 0 clean, 1 findings (errors or warnings), 2 wrong use or a file that can't be read or written"

_COMMANDS = {
    "new": "new:new_command",
    "build": "compile:build_command",
    "check": "compile:check_command",
    "grade": "grade:grade_command",
    "measure": "measure:measure_command",
    "by-metre": "by_metre:by_metre_command",
    "lay": "lay:lay_command",
    "fits": "fits:fits_command",
    "format": "format:format_command",
    "compare": "compare:compare_command",
    "watch": "watch:watch_command",
    "print": "print:print_command",
    "draw-by-hand": "draw_by_hand:draw_by_hand_command",
    "publish": "publish:publish_command",
    "explain": "explain:explain_command",
}
"""Which function answers a command, and in which module it stands."""


def start() -> int:
    """The command as a process of its own: too short a run for collecting garbage to pay."""
    gc.disable()
    try:
        return main()
    finally:
        gc.freeze()  # nothing is looked through for garbage on the way out either


def main(arguments: Sequence[str] | None = None, host: Host | None = None) -> int:
    """Run one command and return its exit code."""
    options = _parser().parse_args(arguments)
    host = host or DiskHost()
    try:
        return _run(host, options)
    except BrokenPipeError:
        sys.stderr.close()
        return FAULT


def _run(host: Host, options: argparse.Namespace) -> int:
    """Call the command that was asked for; each brings its own imports."""
    if "needs_bodies" in options and "fills_in" not in options:
        from garmentc.cli.defaults import fill_in

        fault = fill_in(host, options)
        if fault is not None:
            return fault
    module, _, function = _COMMANDS[options.command].partition(":")
    code: int = getattr(import_module(f"garmentc.cli.{module}"), function)(host, options)
    return code


class _Parser(argparse.ArgumentParser):
    """Takes options by their whole names only: ``--size`` is not meant as ``--sizes``."""

    def __init__(self, **options: Any) -> None:
        super().__init__(allow_abbrev=False, **options)


def _parser() -> argparse.ArgumentParser:
    parser = _Parser(
        prog="garmentc",
        description="Compile a garment's drafting rules into true-scale patterns and a construction sheet.",
        epilog=_CODES,
    )
    parser.add_argument("--version", action="version", version=f"garmentc {__version__}")
    commands = parser.add_subparsers(dest="command", required=True, metavar="COMMAND")

    new = commands.add_parser(
        "new",
        help="start a project",
        description="Start a folder with a garment that compiles, a body to fill in, a size chart, and a workshop.yaml "
        "with what holds for all commands. The garment is named after the folder. Nothing is overwritten.",
        epilog="exit codes: 0 done, 2 nothing written: a file is there already, or the name can't be used",
    )
    new.add_argument("name", metavar="NAME", help="the folder, and so the name of the garment")
    new.add_argument("--title", metavar="TEXT", help="what people are shown as its name")
    new.add_argument("--maker", metavar="NAME", help="your name, for the print")
    new.add_argument("--unit", choices=("cm", "inch"), default="cm", help="the unit of all lengths that are said (cm)")
    new.add_argument("--paper", choices=("a4", "letter"), help="the paper to print on (a4; with inches letter)")
    new.add_argument("--language", choices=("en", "de"), default="en", help="the language of printed texts (en)")

    build = commands.add_parser(
        "build",
        help="write patterns, sheets and the model",
        description="Draft a garment for the sizes of a chart or for one body, and write, for each, true-scale SVG "
        "patterns and a construction sheet, and one garment.json for all. Nothing is written when there is an error. "
        "What an earlier build of the same garment wrote into the same size folders is removed when it is no longer "
        "written; without --only, the other sizes of a chart too. Files you changed or added stay. With --bodies, each "
        "row of the table gets a folder of its own, what was made before from the same is left as it is, and what is "
        "wrong with one body keeps only that one from being made.",
        epilog=_CODES,
    )
    _spec(build)
    _bodies(build, required=True).add_argument(
        "--bodies",
        action=_Once,
        metavar="TABLE.csv",
        help="a table: one person in each row, one measure in each column",
    )
    _options(build)
    _unit(build)
    build.add_argument("--out", required=True, metavar="FOLDER", help="where the files go")
    build.add_argument("--patterns-only", action="store_true", help="write no sheets and no garment.json")
    build.add_argument(
        "--sheet-pdf",
        choices=("a4", "letter"),
        metavar="PAPER",
        help="write each sheet as PDF too, on a4 or letter paper",
    )

    check = commands.add_parser(
        "check",
        help="only look for mistakes",
        description="Check a garment. Without sizes or a body: names, kinds and units. With them: also the draft, the "
        "seams, the allowances and the garment's own checks.",
        epilog=_CODES,
    )
    check.add_argument("specs", metavar="SPEC", nargs="+", help=".garment files")
    _bodies(check, required=False)
    _options(check)

    grade = commands.add_parser(
        "grade",
        help="compare the sizes",
        description="Show how the corners and edges of each piece move from size to size, and warn where an edge turns "
        "back, makes an uneven step or crosses its own line of the next size. With --out, also as a table (grade.csv) "
        "and as a true-scale SVG of each piece with all sizes laid over each other.",
        epilog=_CODES,
    )
    _spec(grade)
    grade.add_argument("--sizes", action=_Once, metavar="CHART", help="a size chart (YAML)")
    grade.set_defaults(body=None, needs_bodies=True)
    _options(grade)
    grade.add_argument(
        "--align",
        metavar="PIECE.POINT",
        action="append",
        default=[],
        help="lay the sizes of a piece over each other at this point, else at its origin (may be repeated)",
    )
    grade.add_argument("--out", metavar="FOLDER", help="where the files go")

    measure = commands.add_parser(
        "measure",
        help="say what the finished garment measures",
        description="Show, for each size, the finished measurements with how to take them and how far they may be off, "
        "the ease, the lengths of seams and edges, and the cloth that is cut.",
        epilog=_CODES,
    )
    _inputs(measure)
    measure.add_argument(
        "--as", dest="table", choices=("text", "csv", "json"), default="text", help="for reading, or for programs"
    )
    _unit(measure)
    measure.add_argument("--out", metavar="FILE", help="the file to write; without it, standard output")

    metre = commands.add_parser(
        "by-metre",
        help="say what length of cloth each size needs",
        description="Lay all pieces on cloth of some width, single or folded lengthwise, so that they need as little "
        "of its length as can be found in a time, and say for each size what to buy. Grain and, on cloth with an "
        "upper end, the way up are kept. Every plan is verified before it is told. Ctrl-C keeps what was found. With "
        "--draw the plans are drawn, true to scale and for the screen.",
        epilog="exit codes: 0 all sizes laid, 1 findings, or a size that can't be laid, 2 wrong use or a file that "
        "can't be read or written",
    )
    _inputs(metre)
    cloth = metre.add_mutually_exclusive_group(required=True)
    cloth.add_argument("--width", metavar="LENGTH", help="how wide the cloth is, selvages included: 140cm")
    cloth.add_argument("--cloth", metavar="STOCK:ID", help="a cloth by the metre, with its shrinkage and selvages")
    metre.add_argument("--selvage", metavar="LENGTH", default="1 cm", help="with --width: how wide each is (1 cm)")
    metre.add_argument("--one-way", action="store_true", help="with --width: its nap or picture has an upper end")
    metre.add_argument("--alike", action="store_true", help="with --width: both its sides may be the right one")
    metre.add_argument("--folded", action="store_true", help="folded lengthwise in half; else single")
    _search(metre, 2.0, "for each size")
    metre.add_argument(
        "--as", dest="table", choices=("text", "csv", "json"), default="text", help="for reading, or for programs"
    )
    metre.add_argument("--out", metavar="FILE", help="the file to write; without it, standard output")
    metre.add_argument("--draw", metavar="FOLDER", help="draw the plan of each size, with a page to cut by")
    _unit(metre)

    laying = commands.add_parser(
        "lay",
        help="find out where each piece lies on a cloth you have",
        description="Look for a way to lay all pieces on a cloth of the stock: on their grain, off flaws and finished "
        "edges, with the edges, corners and pictures where the garment wants them. What is found is verified, and kept "
        "in a small file beside the spec, which is used and verified again the next time; move or pin a piece there, "
        "and the rest is found anew. With --out, the plan is drawn, true to scale and for the screen, with a page that "
        "says where each piece lies by tape measure. Ctrl-C keeps the best plan found until then.",
        epilog=_CODES,
    )
    _spec(laying)
    _bodies(laying, required=True)
    laying.add_argument("--size", metavar="SIZE", help="the size of the chart")
    laying.add_argument(
        "--cloth",
        metavar="[NAME=]STOCK:ID",
        action="append",
        required=True,
        help="the cloth: the file ID.yaml in the folder STOCK, or a file; NAME= says which cloth of a garment that has "
        "several (may be repeated)",
    )
    _settings(laying)
    _unit(laying)
    _search(laying, 30.0, "for a plan")
    laying.add_argument("--out", metavar="FOLDER", help="where the drawings and the page go")

    fitting = commands.add_parser(
        "fits",
        help="say which cloth gives which size",
        description="Look on which cloths of a stock each size can be cut: with --cloth, a table of cloths against "
        "sizes, with the largest size that each cloth gives and what is short where. Or the other way: the smallest "
        "square (--square), or the length at some width (--width), from which each size was found to come. Every plan "
        "behind it is verified; kept plans that still hold count. Ctrl-C keeps what is known until then.",
        epilog=_CODES,
    )
    _inputs(fitting)
    what = fitting.add_mutually_exclusive_group(required=True)
    what.add_argument(
        "--cloth",
        metavar="[NAME=]STOCK",
        action="append",
        help="a folder of cloths, STOCK:ID for one of them, or a file; NAME= says which cloth of a garment that has "
        "several (may be repeated)",
    )
    what.add_argument("--square", action="store_true", help="the smallest square for each size")
    what.add_argument("--width", metavar="LENGTH", help="the length of a cloth so wide for each size: 140cm")
    fitting.add_argument(
        "--hem", metavar="LENGTH", help="with --square or --width: its edges are finished all round, so wide; else raw"
    )
    _search(fitting, 5.0, "for each plan")
    fitting.add_argument(
        "--as",
        dest="table",
        choices=("text", "csv", "json", "svg"),
        default="text",
        help="for reading, for programs, or as a picture",
    )
    _unit(fitting)
    fitting.add_argument("--out", metavar="FILE", help="the file to write; without it, standard output")

    layout = commands.add_parser(
        "format",
        help="lay a spec out the canonical way",
        description="Lay .garment files out the one canonical way, in place. Numbers, units, texts and comments stay "
        "as they are. A file is only written once it is proved that the garment is the same and that formatting it "
        "again would change nothing; a file with syntax faults is left alone.",
        epilog="exit codes: 0 done (or nothing to do), 1 syntax faults, or with --check or --diff another layout, "
        "2 wrong use or a file that can't be read or written",
    )
    layout.add_argument(
        "specs", metavar="SPEC", nargs="+", help="a .garment file; `-` reads standard input and writes standard output"
    )
    layout.add_argument("--check", action="store_true", help="write nothing; name the files that would change")
    layout.add_argument("--diff", action="store_true", help="write nothing; show what would change")
    layout.add_argument("--width", type=int, default=120, metavar="COLUMNS", help="how wide a line may be (120)")
    layout.set_defaults(format="full")

    paper = commands.add_parser(
        "print",
        help="write a pattern for paper",
        description="Write a true-scale PDF of one size, of one person, or of several sizes laid over each other: "
        "pages to join, with a square and bars to check the print, or one large sheet. The ending of --out says "
        "whether it becomes a PDF, one sheet of SVG, or DXF on the layers of ASTM D6673.",
        epilog=_CODES,
    )
    _inputs(paper)
    paper.add_argument("--paper", help="a4 (else), letter, a3, a0 ..., or a roll: roll:914mm")
    _saying(paper)
    paper.add_argument("--draw-strips", action="store_true", help="draw strips instead of saying how to cut them")
    _fonts(paper)
    paper.add_argument("--out", required=True, metavar="FILE", help="FILE.pdf, or FILE.svg for one sheet, or FILE.dxf")

    changed = commands.add_parser(
        "compare",
        help="say what has changed between two states of a garment",
        description="Compare two states of a garment and say what has changed, for each size of a chart or for one "
        "person; without them, which statements differ. What is only laid out differently is the same. A state is a "
        "file (specs/tern.garment), a file in a git revision (HEAD~1:specs/tern.garment, or :FILE for what "
        "is staged), or only a revision (HEAD~1), then of the file that the other state names. Everything that a spec "
        "uses comes from the same revision; the chart or the body is read as it is now, for both.",
        epilog="exit codes: 0 the same garment, 1 another one, 2 wrong use, an error in one of the two, or a file that "
        "can't be read or written",
    )
    changed.add_argument("old", metavar="OLD", help="FILE.garment, REVISION:FILE.garment or REVISION")
    changed.add_argument("new", metavar="NEW", help="the same, for the later state")
    _bodies(changed, required=False)
    _options(changed)
    changed.add_argument(
        "--as",
        dest="shape",
        choices=("text", "short", "json", "html"),
        default="text",
        help="for reading, for the message of a commit, for programs, or with pictures, as one file",
    )
    changed.add_argument("--paper", help="also count the pages of each size on a4, letter, a3, a0 ...")
    changed.add_argument("--out", metavar="FILE", help="the file to write; without it, standard output")

    watch = commands.add_parser(
        "watch",
        help="compile again whenever a file changes",
        description="Compile garments, and again whenever a spec, anything it uses, the chart or body, or the "
        "workshop.yaml changes; with --cloth, also the cloths and the plans kept for them, which are verified. "
        "Tells what is wrong, how long it took and what has moved since the last time without an error. With --out it "
        "writes what build writes, only files that change; after an error they stay as they were. Ctrl-C stops.",
        epilog="exit codes: 0 stopped with Ctrl-C, 2 wrong use",
    )
    watch.add_argument("specs", metavar="SPEC", nargs="+", help=".garment files")
    _bodies(watch, required=False)
    watch.set_defaults(fills_in=True)
    _options(watch)
    _unit(watch)
    watch.add_argument("--out", metavar="FOLDER", help="where the files go; without it, only look for mistakes")
    watch.add_argument(
        "--cloth",
        metavar="[NAME=]STOCK:ID",
        action="append",
        default=[],
        help="say whether the plans kept for this cloth still hold (may be repeated)",
    )
    watch.add_argument("--patterns-only", action="store_true", help="write no sheets and no garment.json")

    by_hand = commands.add_parser(
        "draw-by-hand",
        help="write a pattern as numbers to draw it by hand",
        description="Write the draft of one size or person as numbered instructions for paper, ruler and pencil, "
        "with tables for the curves. The ending of --out says whether it becomes HTML with pictures or Markdown.",
        epilog=_CODES,
    )
    _spec(by_hand)
    _bodies(by_hand, required=True)
    by_hand.add_argument("--size", metavar="SIZE", help="the size of the chart")
    _settings(by_hand)
    _saying(by_hand)
    by_hand.add_argument("--out", metavar="FILE", help="FILE.html or FILE.md; without it, Markdown on standard output")

    handout = commands.add_parser(
        "publish",
        help="put all that others need into one zip",
        description="Write a hand-out: the pattern as PDF for A4, Letter and A0, a sheet for each size, the size "
        "chart, the measurements of the finished garment, the licence and thanks. Two runs give the same bytes.",
        epilog=_CODES,
    )
    _inputs(handout)
    _saying(handout)
    _fonts(handout)
    handout.add_argument("--maker", metavar="NAME", help="who made the garment")
    handout.add_argument("--licence", metavar="FILE", help="a text that says what others may do with it")
    handout.add_argument(
        "--credit", metavar="TEXT", action="append", default=[], help="a line of thanks (may be repeated)"
    )
    handout.add_argument("--out", required=True, metavar="FILE.zip", help="the file to write")

    explain = commands.add_parser(
        "explain",
        help="explain a finding",
        description="Show the page of a finding: what it means, an example that fails and the same mended.",
    )
    explain.add_argument("slug", nargs="?", help="the word in square brackets; without it, all are listed")
    return parser


def _inputs(parser: argparse.ArgumentParser) -> None:
    _spec(parser)
    _bodies(parser, required=True)
    _options(parser)


def _search(parser: argparse.ArgumentParser, limit: float, of_what: str) -> None:
    what = f"how long to search {of_what} ({limit:g})"
    parser.add_argument("--limit", metavar="SECONDS", type=float, default=limit, help=what)
    parser.add_argument("--seed", metavar="NUMBER", type=int, default=1, help="where the search begins (1)")


class _Once(argparse.Action):
    """Keeps what was given, and refuses to be given a second time."""

    def __call__(
        self, parser: argparse.ArgumentParser, namespace: argparse.Namespace, values: Any, option: str | None = None
    ) -> None:
        if getattr(namespace, self.dest) is not None:
            parser.error(f"{option} was given twice; it takes one file, so run garmentc once for each")
        setattr(namespace, self.dest, values)


def _bodies(parser: argparse.ArgumentParser, *, required: bool) -> argparse._MutuallyExclusiveGroup:
    bodies = parser.add_mutually_exclusive_group()
    parser.set_defaults(needs_bodies=required)
    bodies.add_argument("--sizes", action=_Once, metavar="CHART", help="a size chart (YAML)")
    bodies.add_argument("--body", action=_Once, metavar="FILE", help="the measures of one person (YAML)")
    return bodies


def _spec(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("spec", metavar="SPEC", help="a .garment file")


def _options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--only", metavar="SIZES", default="", help="sizes of the chart to take, with commas: 88,92")
    _settings(parser)


def _saying(parser: argparse.ArgumentParser) -> None:
    _unit(parser)
    parser.add_argument("--language", help="en, de, or both as en,de (en)")


def _unit(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--unit", choices=("cm", "inch"), help="the unit of all lengths that are said (cm)")


def _fonts(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--font", metavar="FILE", action="append", default=[], help="a font for characters the shipped one lacks"
    )


def _settings(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--set",
        metavar="NAME=VALUE",
        action="append",
        default=[],
        dest="settings",
        help="change a param, ease or choice: side_length=20cm, ease.bust_girth=10cm (may be repeated)",
    )
    parser.add_argument(
        "--format",
        choices=("full", "plain", "json"),
        default="full",
        help="findings for reading, one line each, or as JSON",
    )
