"""Faults planted in a garment are found, each at its place, and nothing is found that only follows from them."""

from pathlib import Path

import pytest

from tests.language.small import Fault, compiled, faults, found

CURLEW = Path("tests/syntax/curlew.garment").read_text(encoding="utf-8")


def planted(*changes: tuple[str, str]) -> str:
    text = CURLEW
    for old, new in changes:
        assert text.count(old) >= 1, f"curlew has no {old!r}"
        text = text.replace(old, new, 1)
    return text


def line_of(text: str, part: str) -> int:
    return text[: text.index(part)].count("\n") + 1


def test_five_faults_in_five_statements_give_five_findings() -> None:
    """Syntax and meaning mixed: a word missing, a comma in a number, a unit missing, a wrong name, a wrong kind."""
    text = planted(
        ("rise        = bust_girth", "rise        bust_girth"),
        ("top_centre = (0 cm, 2.5 cm)", "top_centre = (0 cm, 2,5 cm)"),
        ("underarm    = (front_width, 0 cm)", "underarm    = (front_width, 0)"),
        ("seam side joins front.side with", "seam side joins front.sied with"),
        ("strap.length >= strap_path + 4 cm", "strap.length >= strap_path + 4 deg"),
    )
    assert faults(text) == [
        Fault("unexpected-word", line_of(text, "rise        bust"), "bust_girth"),
        Fault("wrong-kind", line_of(text, "underarm    ="), "0"),
        Fault("unexpected-word", line_of(text, "top_centre = "), ","),
        Fault("unknown-name", line_of(text, "seam side joins"), "front.sied"),
        Fault("unit-mismatch", line_of(text, "strap.length >="), "strap_path + 4 deg"),
    ]


def test_five_faults_of_writing_give_five_findings() -> None:
    text = planted(
        ("edition 1", "edition one"),
        ("ease bust_girth = 4 cm from", "ease bust_girth = 4 cm form"),
        ("  grain bias along centre", "  grian bias along centre"),
        ("armhole  : tip -> underarm", "armhole  : tip > > underarm"),
        ("finish front.hem, back.hem as found", "finish front.hem back.hem as found"),
    )
    places = [(one.line, one.text) for one in faults(text)]
    assert places == [
        (line_of(text, "edition one"), "one"),
        (line_of(text, "ease bust_girth"), "form"),
        (line_of(text, "grian"), "grian"),
        (line_of(text, "armhole  : tip >"), ">"),
        (line_of(text, "finish front.hem back"), "back"),
    ]


def test_five_faults_of_meaning_give_five_findings() -> None:
    text = planted(
        ("tip_from_centre = bust_girth / 16 + 3 cm", "tip_from_centre = bust_girth / 16 + 3"),
        ("hem_side    = underarm down side_length", "hem_side    = underarm down side_lenght"),
        ("notch on side at 50 %", "notch on sied at 50 %"),
        ("make tube stitched 5 mm from edge", "make tube stitched 5 deg from edge"),
        ("as french", "as franch"),
    )
    assert [(one.slug, one.text) for one in faults(text)] == [
        ("unit-mismatch", "bust_girth / 16 + 3"),
        ("unknown-name", "side_lenght"),
        ("unknown-name", "sied"),
        ("wrong-kind", "5 deg"),
        ("unknown-name", "franch"),
    ]


ONE_FAULT = {
    "a block of a piece not closed": (
        "keep above level(underarm down facing_depth) as lower\n}",
        "keep above level(underarm down facing_depth) as lower\n",
        "unclosed-block",
        "{",
    ),
    "a brace too many": ('strip strap "Strap" {', '}\nstrip strap "Strap" {', "stray-brace", "}"),
    "a text not closed": (
        '"underarm to hem along the side"',
        '"underarm to hem along the side',
        "unclosed-text",
        '"underarm to hem along the side',
    ),
    "curly quotes": ('"Front"', "“Front”", "unexpected-word", "“"),
    "no quotes": ('"Front"', "Front", "unexpected-word", "Front"),
    "a keyword of a piece misspelt": ("  cut 1 on fold", "  cutt 1 on fold", "unknown-statement", "cutt"),
    "a keyword of a line misspelt": ("seam side joins", "saem side joins", "unknown-statement", "saem"),
    "a word within a line misspelt": ("seam side joins", "seam side join", "unexpected-word", "join"),
    "a decimal comma in a point": ("(0 cm, 2.5 cm)", "(0 cm, 2,5 cm)", "unexpected-word", ","),
    "a decimal comma in a param": ("16 cm from", "16,5 cm from", "unexpected-word", ","),
    "an arrow missing": (
        "centre   : hem_point -> neck_centre",
        "centre   : hem_point neck_centre",
        "unexpected-word",
        "neck_centre",
    ),
    "a dash for an arrow": (
        "centre   : hem_point -> neck_centre",
        "centre   : hem_point - neck_centre",
        "unit-mismatch",
        "hem_point - neck_centre",
    ),
    "an equals sign missing": ("rise        = bust", "rise          bust", "unexpected-word", "bust_girth"),
    "a bracket missing": ("(front_width, 0 cm)", "(front_width, 0 cm", "unexpected-word", "\n"),
    "a bracket too many": ("(front_width, 0 cm)", "(front_width, 0 cm))", "unexpected-word", ")"),
    "a comma missing": ("(front_width, 0 cm)", "(front_width 0 cm)", "unexpected-word", "0 cm"),
    "a unit after a bracket": (
        "back_width  = bust_girth / 4",
        "back_width  = (bust_girth) cm",
        "unexpected-word",
        "cm",
    ),
    "a sign that is none": ("rise        =", "rise $      =", "unexpected-word", "$"),
    "two lines in one": (
        "  cut 1 on fold centre\n",
        "  cut 1 on fold centre ",
        "unexpected-word",
        "grain",
    ),
    "the word as missing": ("back.side as french", "back.side french", "unexpected-word", "french"),
    "the name of the garment missing": (
        'garment curlew "Curlew',
        'garment "Curlew',
        "unexpected-word",
        '"Curlew, a bias camisole from one square cloth"',
    ),
    "a seam type that is none": ("as french", "as franch", "unknown-name", "franch"),
    "an edge that is none": ("front.side with", "front.sied with", "unknown-name", "front.sied"),
    "a unit missing": ("(front_width, 0 cm)", "(front_width, 0)", "wrong-kind", "0"),
    "a function that is none": ("along(top, strap", "alnog(top, strap", "unknown-name", "alnog"),
    "an option that is none": ("straps is loops then", "straps is loop then", "unknown-name", "loop"),
    "an ease that is none": ("ease.bust_girth / 2", "ease.hip_girth / 2", "unknown-name", "hip_girth"),
    "a step after nothing": ("after back_top", "after back_tip", "unknown-name", "back_tip"),
    "a strip that is none": ("insert loop folded at", "insert lop folded at", "unknown-name", "lop"),
    "a fold that is none": ("cut 1 on fold centre", "cut 1 on fold center", "unknown-name", "center"),
}


@pytest.mark.parametrize("what", ONE_FAULT)
def test_one_fault_gives_one_finding_at_its_place(what: str) -> None:
    old, new, slug, text = ONE_FAULT[what]
    spec = planted((old, new))
    if "loop" in old or what == "a step after nothing":
        spec = spec.replace("= sewn", "= loops")
    assert [(one.slug, one.text) for one in faults(spec) if one.slug != "unused-name"] == [(slug, text)]


CONSEQUENCES = {
    "the block of an outline not closed": (
        "    hem      : hem_side -> hem_point\n  }\n",
        "    hem      : hem_side -> hem_point\n",
        "unclosed-block",
    ),
    "a title not closed": ('"Front" {', '"Front {', "unclosed-text"),
    "piece misspelt": ('piece back "Back"', 'peice back "Back"', "unknown-statement"),
    "measure misspelt": ("measure bust_girth", "mesure bust_girth", "unknown-statement"),
    "param misspelt": ("param side_length", "parma side_length", "unknown-statement"),
    "strip misspelt": ('strip strap "Strap"', 'stripe strap "Strap"', "unknown-statement"),
    "a colon missing in an outline": ("armhole  : tip", "armhole    tip", "unexpected-word"),
    "a strip without a width": ("  width 3 cm\n", "", "incomplete-strip"),
    "a line that does not go on": ("back_facing.side as plain", "back_facing.side as\n  plain", "unexpected-word"),
    "an outline not closed at the end of a piece": (
        '    hem    : hem_side -> hem_point\n  }\n\n  notch on side at 50 %\n  mark strap at strap_end "strap or loop"\n'
        '  mark corner at hem_point "lies on the corner of the cloth"\n}',
        "    hem    : hem_side -> hem_point   # the last\n}",
        "unclosed-block",
    ),
    "the piece a piece is taken from misspelt": ("from back {", "from bakc {", "unknown-name"),
}


@pytest.mark.parametrize("what", CONSEQUENCES)
def test_nothing_is_found_that_only_follows(what: str) -> None:
    old, new, slug = CONSEQUENCES[what]
    assert [one.slug for one in faults(planted((old, new)))] == [slug]


def test_a_misspelt_keyword_is_recognised() -> None:
    for old, new in (("piece back ", "peice back "), ("  notch on", "  nocth on"), ("finish front", "finnish front")):
        (first, *_) = [one for one in found(planted((old, new))) if one.slug == "unknown-statement"]
        assert f"did you mean `{old.split()[0]}`" in first.help


def test_what_to_do_is_said() -> None:
    (comma,) = found(planted(("(0 cm, 2.5 cm)", "(0 cm, 2,5 cm)")))
    assert "decimals are written with a point" in comma.help
    (unit,) = found(planted(("back_width  = bust_girth / 4", "back_width  = (bust_girth) cm")))
    assert "directly after a number" in unit.help
    (quotes,) = found(planted(('"Front"', "“Front”")))
    assert "straight double quotes" in quotes.help


def test_a_wide_blank_is_not_called_the_end_of_the_line() -> None:
    (one,) = found(planted(("16 cm from", "16\u3000cm from")))
    assert one.headline == "the sign U+3000 does not fit here"
    assert "write a plain one" in one.help


def test_all_faults_of_one_file_are_told_in_one_run() -> None:
    """Thirty statements with a fault each: thirty findings, in the order of the text."""
    lines = [f"value_{i} = {i} cm +" if i % 2 else f"value_{i} {i} cm" for i in range(30)]
    text = 'garment ruff "Ruff"\nedition 1\n' + "; \n".join(lines) + "\n"
    places = [one.line for one in faults(text)]
    assert len(places) >= 15 and places == sorted(set(places))


def test_a_broken_garment_line_hides_nothing_else() -> None:
    spec = planted(('garment curlew "Curlew', 'garment curlew: "Curlew'), ("as french", "as franch"))
    assert [one.slug for one in faults(spec)] == ["unexpected-word", "unknown-name"]


def test_no_draft_is_made_from_a_damaged_file() -> None:
    made = compiled(planted(("rise        = bust", "rise          bust")))
    assert made.made == () and made.design is None


def test_a_damaged_first_line_of_a_variant_has_no_consequences() -> None:
    text = 'garment dunlin "Dunlin" vareis "curlew.garment"\nedition 1\nset side_length = 20 cm\ndrop step knots\n'
    assert [one.slug for one in faults(text)] == ["unexpected-word"]


def test_nothing_of_a_variant_is_judged_when_its_first_line_is_damaged() -> None:
    text = 'garment dunlin "Dunlin" vareis "curlew.garment"\nedition 1\nfinish front.hem as bound\nx = side_length\n'
    assert [one.slug for one in faults(text)] == ["unexpected-word"]


def test_no_place_lies_beyond_the_text() -> None:
    """The last block is not closed, and something in it is wrong as a whole."""
    text = 'garment ruff "Ruff"\nedition 1\nadd to front {\n  mark m at a'
    for one in found(text):
        assert one.span.end <= len(text), one.slug
