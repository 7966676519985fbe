"""``grammar/language.md`` tells the truth: its examples compile, its tables name what the compiler knows."""

import re
from pathlib import Path
from typing import NamedTuple

import pytest

from garmentc.data.measures import known_measures
from garmentc.design.functions import FUNCTIONS
from garmentc.diagnostics.finding import Finding, Findings
from garmentc.draft.functions import COMPUTE
from garmentc.host import DiskHost
from garmentc.pipeline import Compiled, compile_spec
from garmentc.shipped import grammar_file, library_file, library_names
from garmentc.source import Source
from garmentc.syntax import nodes
from garmentc.syntax.parser import Parser
from tests.support import MemoryHost

TEXT = Path(grammar_file("language.md")).read_text(encoding="utf-8")
GRAMMAR = Path(grammar_file("garment.lark")).read_text(encoding="utf-8")
CHART = "specs/sizes/women-en13402.yaml"
MEASURED_PIECES = {"width", "girth", "area"}
FRAME_OUTLINE = re.compile(r"^  outline \{ lower .*\n", re.MULTILINE)
FRAME_FINISHES = re.compile(r"^finish .* as pinked\n", re.MULTILINE)


class Example(NamedTuple):
    """One fenced example: ``place`` is what stands after ``garment`` or ``garment-part``."""

    is_part: bool
    place: str
    text: str
    line: int


def examples() -> list[Example]:
    found = []
    for fence in re.finditer(r"^```garment(-part)?(.*)\n((?:.*\n)*?)```$", TEXT, re.MULTILINE):
        line = TEXT.count("\n", 0, fence.start()) + 1
        found.append(Example(fence[1] is not None, fence[2].strip(), fence[3], line))
    return found


def name_of(spec: str) -> str:
    found = re.search(r"^garment (\w+)", spec, re.MULTILINE)
    assert found is not None
    return found[1]


WHOLE = [one.text for one in examples() if not one.is_part]
SPECS = {name_of(text): text for text in WHOLE}
PARTS = [one for one in examples() if one.is_part]


def compiled(name: str, texts: dict[str, str]) -> Compiled:
    host = MemoryHost({f"{one}.garment": text for one, text in texts.items()})
    return compile_spec(host, f"{name}.garment", sizes=CHART, only=("88",), every_choice=True)


def told(findings: list[Finding]) -> list[str]:
    return [f"{one.span}: {one.slug}: {one.headline} {one.notes}" for one in findings]


def framed(part: Example) -> str:
    """A part at its place in the frame, without the frame's outline where it brings its own."""
    frame = FRAME_FINISHES.sub("", SPECS["knot"])
    if part.place == "piece":
        if re.search(r"^outline \{", part.text, re.MULTILINE):
            frame = FRAME_OUTLINE.sub("", frame)
        return frame.replace("  # parts of a piece stand here\n", part.text)
    assert part.place == "", f"line {part.line}: a part stands in a piece or in the garment"
    return frame.replace("# parts of a garment stand here\n", part.text)


def pinked(spec: str) -> str:
    """A spec with a finish for every edge that it sews to nothing."""
    for _ in range(len(SPECS["knot"].splitlines())):
        raw = [one for one in compiled("knot", {"knot": spec}).findings if one.slug == "raw-edge"]
        edges = [found[1] for one in raw if (found := re.search(r"`finish (\S+) as", one.help))]
        if not edges:
            break
        spec += f"finish {', '.join(edges)} as pinked\n"
    return spec


def toured(changes: tuple[tuple[str, str], ...] = ()) -> list[str]:
    """The slugs of what is told of the tour's top for the tour's body, after changes of its text."""
    body = re.search(r"^```yaml\n((?:.*\n)*?)```$", TEXT, re.MULTILINE)
    assert body is not None
    text = SPECS["dunlin"]
    for old, new in changes:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    host = MemoryHost({"dunlin.garment": text, "me.yaml": body[1]})
    made = compile_spec(host, "dunlin.garment", body="me.yaml")
    assert len(made.made) == (0 if made.findings.has_errors else 1)
    return [finding.slug for finding in made.findings]


def test_the_tour_leads_from_measures_to_a_top() -> None:
    assert toured() == []


def test_the_mistake_of_the_tour_is_told() -> None:
    assert toured((("finish front.armhole, back.armhole", "finish back.armhole"),)) == ["raw-edge"]


def test_the_changes_of_the_tour_compile() -> None:
    changes = (
        ("body_length = 54 cm", "body_length = 60 cm"),
        ("(0 cm, -6 cm)", "(0 cm, -9 cm)"),
        ("hem_centre   = (0 cm, -body_length)", "hem_centre = (0 cm, -body_length - 3 cm)"),
        (
            "hem      : hem_side -> hem_centre",
            "hem : hem_side -> hem_centre curve leaving square to side, arriving square to centre",
        ),
        (
            "finish front.hem, back.hem as found",
            "finish front.hem, back.hem as double_turned_hem { set hem = 6 mm; set tuck = 5 mm }",
        ),
    )
    assert all(new in TEXT for _, new in changes)
    assert toured(changes) == []


def test_each_whole_example_has_a_name_of_its_own() -> None:
    assert [name_of(text) for text in WHOLE] == list(SPECS)


@pytest.mark.parametrize("name", SPECS)
def test_whole_examples_compile_clean(name: str) -> None:
    made = compiled(name, SPECS)
    assert told(list(made.findings)) == []
    assert len(made.made) == 1


@pytest.mark.parametrize("part", PARTS, ids=lambda part: f"line{part.line}")
def test_parts_compile_in_the_frame(part: Example) -> None:
    made = compiled("knot", {"knot": pinked(framed(part))})
    assert told([one for one in made.findings if one.slug not in ("unused-name", "pieces-apart")]) == []
    assert len(made.made) == 1


def test_a_part_really_stands_in_the_frame() -> None:
    """A part that is wrong is found, so the tests above can fail."""
    for place, text in (("", "x = 1 cm + 2 deg\n"), ("piece", "x = 1 cm + 2 deg\n")):
        made = compiled("knot", {"knot": pinked(framed(Example(True, place, text, 0)))})
        assert [one.slug for one in made.findings] == ["unit-mismatch"]


def test_the_specs_have_bird_names_and_titles() -> None:
    for name, spec in SPECS.items():
        bird = name.partition("_")[0]
        assert re.search(rf'^garment {name} "{bird.capitalize()}, ', spec, re.MULTILINE), name


def table_after(heading: str) -> list[list[str]]:
    """The rows of the tables of a section, cell by cell."""
    level = heading.split(" ", 1)[0]
    section = TEXT.split(f"\n{heading}\n", 1)[1]
    section = re.split(rf"\n#{{1,{len(level)}}} ", section, maxsplit=1)[0]
    rows = [line for line in section.splitlines() if line.startswith("|") and not line.startswith("|--")]
    return [[cell.strip() for cell in re.split(r"(?<!\\)\|", row)[1:-1]] for row in rows]


def test_function_table_is_complete() -> None:
    names = [row[0].strip("`") for row in table_after("### Functions") if row[0].startswith("`")]
    assert names == list(FUNCTIONS)


def test_every_function_is_used_in_an_example() -> None:
    shown = "\n".join(one.text for one in examples())
    missing = [name for name in FUNCTIONS if not re.search(rf"\b{name}\(", shown)]
    assert set(missing) <= {"max", "round_up", "round_down", "hypot", "sin", "tan", "asin", "acos", "atan"}


def test_every_function_has_kinds_and_a_computation() -> None:
    assert set(FUNCTIONS) == set(COMPUTE) | MEASURED_PIECES
    assert not set(COMPUTE) & MEASURED_PIECES


def keywords() -> set[str]:
    """All words that the grammar spells out, those of units too."""
    code = "\n".join(line.split("//", 1)[0] for line in GRAMMAR.splitlines())
    spelled = set(re.findall(r'"([a-z]+)"', code))
    units = re.search(r"QUANTITY: .*\((mm\|[a-z|]+)", code)
    assert units is not None
    return spelled | {unit for unit in units[1].split("|") if unit}


def test_every_word_of_the_grammar_is_listed() -> None:
    listed = {word for row in table_after("## Words of the language") for word in re.findall(r"`([a-z]+)`", row[1])}
    assert listed == keywords()


def test_every_word_of_the_grammar_is_shown_outside_the_list() -> None:
    body = TEXT.split("\n## Words of the language\n", 1)[0]
    code = " ".join([*re.findall(r"`([^`\n]+)`", body), *(one.text for one in examples())])
    missing = {word for word in keywords() if not re.search(rf"(?<![A-Za-z_]){word}(?![A-Za-z_])", code)}
    assert missing == set()


def test_every_measure_is_listed() -> None:
    listed = re.search(r"^Measures known by name: ((?:.*\n)*?)\n", TEXT, re.MULTILINE)
    assert listed is not None
    assert re.findall(r"`(\w+)`", listed[1]) == list(known_measures())


def library_tables() -> dict[str, dict[str, str]]:
    """Per kind, what the document says can be set, by type."""
    found: dict[str, dict[str, str]] = {}
    kind = ""
    for row in table_after("## The shipped library"):
        if row[0] in ("seam type", "finish"):
            kind = "seams" if row[0] == "seam type" else "finishes"
            continue
        found.setdefault(kind, {})[row[0].strip("`")] = row[2]
    return found


@pytest.mark.parametrize("folder", ["seams", "finishes"])
def test_library_tables_are_complete_and_right(folder: str) -> None:
    rows = library_tables()[folder]
    assert sorted(rows) == library_names(folder)
    parser = Parser(DiskHost())
    for name, said in rows.items():
        text = Path(library_file(f"{folder}/{name}.garment")).read_text(encoding="utf-8")
        made = compiled_items(parser, text)
        for word, value in re.findall(r"`(\w+)` \(([^)]+)\)", said):
            assert made.get(word) == value, f"{name}: {word}"
        widths = {item for item, shown in made.items() if re.fullmatch(r"[0-9.]+ mm", shown)}
        computed = {"allowance"} - widths
        shown = set(re.findall(r"`(\w+)` \(", said))
        assert shown == {one for one in widths - computed if made[one] != "0 mm"}, name


def compiled_items(parser: Parser, text: str) -> dict[str, str]:
    """The widths of a type as it spells them, by name."""
    file = parser.file(Source("library", text), Findings())
    (join,) = (one for one in file.statements if isinstance(one, nodes.JoinType))
    found = {item.name.text: item.value.span.text for item in join.items if isinstance(item, nodes.Define)}
    for item in join.items:
        if isinstance(item, nodes.Allowance):
            found["allowance"] = item.value.span.text
        if isinstance(item, nodes.Binding):
            found["binding"] = item.width.span.text
    return found


def test_every_shipped_stitch_is_listed() -> None:
    text = Path(library_file("stitches.garment")).read_text(encoding="utf-8")
    said = re.search(r"^Stitches: (.*\n.*\n)", TEXT, re.MULTILINE)
    assert said is not None
    assert re.findall(r"`(\d+)`", said[1]) == re.findall(r"^stitch (\d+)", text, re.MULTILINE)


def test_links_inside_the_document_lead_somewhere() -> None:
    headings = re.findall(r"^#+ (.*)$", re.sub(r"^```.*?^```$", "", TEXT, flags=re.MULTILINE | re.DOTALL), re.MULTILINE)
    anchors = {re.sub(r"[^a-z0-9 _-]", "", heading.lower()).replace(" ", "-") for heading in headings}
    wanted = set(re.findall(r"\]\(#([^)]+)\)", TEXT))
    assert wanted <= anchors
    for path in re.findall(r"\]\((?!#)([^)]+)\)", TEXT):
        assert (Path(grammar_file("language.md")).parent / path).exists(), path
