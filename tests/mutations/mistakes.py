"""Plausible drafting mistakes: a text of a demo spec, what stands there by mistake, and the statements it breaks."""

from __future__ import annotations

from typing import NamedTuple


class Mistake(NamedTuple):
    """``wrong`` in place of ``right`` in a spec, the first one after the words ``within``.

    ``breaks`` are words of other statements that may be pointed at.
    """

    spec: str
    right: str
    wrong: str
    breaks: tuple[str, ...] = ()
    within: str = ""


MISTAKES = [
    # wrong signs
    Mistake(
        "tern", "hem_side    = underarm down side_length", "hem_side    = underarm up side_length", ("side ", "hem ")
    ),
    Mistake(
        "tern", "left front_width down front_width", "right front_width down front_width", ("hem ", "centre ", "side ")
    ),
    Mistake(
        "tern",
        "underarm    = (front_width, 0 cm)",
        "underarm    = (-front_width, 0 cm)",
        ("side ", "armhole ", "hem ", "centre "),
    ),
    Mistake(
        "plover",
        "neck_centre   = (0 cm, -front_neck_drop)",
        "neck_centre   = (0 cm, front_neck_drop)",
        ("neckline ", "centre ", "seam "),
    ),
    Mistake(
        "plover",
        "hem_side      = (panel_width, -full_length)",
        "hem_side      = (panel_width, full_length)",
        ("side ", "hem ", "armhole ", "shoulder "),
    ),
    Mistake(
        "plover",
        "shoulder_end  = (panel_width, -shoulder_drop)",
        "shoulder_end  = (-panel_width, -shoulder_drop)",
        ("shoulder ", "armhole ", "side ", "seam "),
    ),
    Mistake(
        "curlew",
        "neck_centre  = (0 cm, full_length + 2 cm - front_neck_drop)",
        "neck_centre  = (0 cm, -full_length + 2 cm - front_neck_drop)",
        ("centre ", "neckline ", "waist "),
    ),
    Mistake(
        "curlew",
        "shoulder_end.y - armhole_depth",
        "shoulder_end.y + armhole_depth",
        ("armhole ", "side ", "shoulder ", "seam ", "neckline "),
    ),
    # swapped points and edges the wrong way round
    Mistake("tern", "side       : underarm -> hem_side", "side       : hem_side -> underarm", ("hem ",)),
    Mistake(
        "plover",
        "shoulder : neck_side -> shoulder_end",
        "shoulder : shoulder_end -> neck_side",
        ("shoulder ", "armhole "),
    ),
    Mistake(
        "curlew", "waist    : (0 cm, 0 cm) -> waist_side", "waist    : waist_side -> (0 cm, 0 cm)", ("side ", "centre ")
    ),
    Mistake("curlew", "side   : hem_side -> waist_side", "side   : waist_side -> hem_side", ("waist ", "hem ")),
    Mistake(
        "tern", "armhole    : point -> underarm curve", "armhole    : point -> hem_side curve", ("side ", "armhole ")
    ),
    Mistake(
        "plover",
        "shoulder   : front.neck_side -> outer_side",
        "shoulder   : outer_side -> front.neck_side",
        ("shoulder ", "outer_edge "),
    ),
    # wrong or missing units
    Mistake("tern", "param side_length = 16 cm", "param side_length = 16 mm"),
    Mistake("tern", "param side_length = 16 cm", "param side_length = 16"),
    Mistake("tern", "param facing_depth = 4 cm", "param facing_depth = 4 in"),
    Mistake("tern", "ease bust_girth = 4 cm", "ease bust_girth = 4 m"),
    Mistake("tern", "rise        = bust_girth / 10 + 4 cm", "rise        = bust_girth / 10 + 4"),
    Mistake("tern", "rise        = bust_girth / 10 + 4 cm", "rise        = bust_girth / 10 + 4 deg"),
    Mistake("tern", "width 3 cm\n  make tube", "width 3 mm\n  make tube", ("strip ", "make ", "seam ", "insert ")),
    Mistake("plover", "param facing_width = 6 cm", "param facing_width = 6 inches"),
    Mistake(
        "plover",
        "neck_half    = neck_girth / 6 + 6.5 cm",
        "neck_half    = neck_girth / 6 + 6.5 mm",
        ("check ", "neckline "),
    ),
    Mistake("plover", "shoulder_drop = 3 cm", "shoulder_drop = 3", ("shoulder_end ",)),
    Mistake("plover", "allowance = 18 mm", "allowance = 18 cm", ("seam side", "side ", "armhole ", "hem")),
    Mistake("curlew", "heading -20 deg by shoulder_length", "heading -20 by shoulder_length"),
    Mistake("curlew", "heading -20 deg by shoulder_length", "heading -20 cm by shoulder_length"),
    Mistake(
        "curlew",
        "to dart_place up 13 cm taking waist_dart",
        "to dart_place up 13 mm taking waist_dart",
        ("dart ", "waist "),
    ),
    Mistake(
        "curlew",
        "armhole_depth = (upper_arm_girth + ease.upper_arm_girth) / 2",
        "armhole_depth = (upper_arm_girth + ease.upper_arm_girth) * 2",
        ("armhole ", "side ", "underarm "),
    ),
    # a division or factor forgotten, a product where a sum is due
    Mistake(
        "tern",
        "front_width = bust_girth / 4 + ease.bust_girth / 2",
        "front_width = bust_girth * ease.bust_girth / 2",
        ("underarm ", "hem_point "),
    ),
    Mistake(
        "tern", "back_width  = bust_girth / 4", "back_width  = bust_girth * bust_girth / 4", ("underarm ", "hem_point ")
    ),
    Mistake(
        "curlew",
        "waist_radius = arc_radius(front.waist.sewn_length, 45 deg)",
        "waist_radius = arc_radius(front.waist.sewn_length, 90 deg)",
        ("seam ", "waist "),
    ),
    Mistake(
        "curlew",
        "waist_radius = arc_radius(front.waist.sewn_length, 45 deg)",
        "waist_radius = arc_radius(front.waist.length, 45 deg)",
        ("seam ", "waist "),
    ),
    Mistake(
        "plover",
        "panel_width  = (bust_girth + ease.bust_girth) / 4",
        "panel_width  = (bust_girth + ease.bust_girth) / 40",
        ("shoulder ", "neckline ", "side ", "armhole ", "hem "),
    ),
    # seams to the wrong edge, edges forgotten, twice, misspelt
    Mistake(
        "tern",
        "seam side joins front.side with back.side as french",
        "seam side joins front.side with back.hem as french",
    ),
    Mistake(
        "tern",
        "seam side joins front.side with back.side as french",
        "seam side joins front.side with back.top as french",
        ("seam ", "side "),
    ),
    Mistake(
        "tern",
        "seam side joins front.side with back.side as french {\n"
        '  corner at front.hem "the cloth\'s own hem runs down to the points"\n}\n',
        "",
        ("side ", "seam ", "joins ", "with ", "step "),
    ),
    Mistake(
        "tern",
        "seam facing_side joins front.facing.side with back_facing.side as plain",
        "seam facing_side joins front.facing.side with back.side as plain",
        ("seam ", "keep "),
    ),
    Mistake("tern", "finish front.hem, back.hem as found", "finish front.hem as found", ("hem ",)),
    Mistake(
        "tern", "finish front.hem, back.hem as found", "finish front.hem, back.hem, back.side as found", ("seam ",)
    ),
    Mistake("tern", "finish front.hem, back.hem as found", "finish front.hem, back.top as found", ("seam ", "hem ")),
    Mistake("tern", "as pinked", "as pinkd"),
    Mistake(
        "tern",
        "insert strap at back.strap_end",
        "insert strap at back.hem_point",
    ),
    Mistake(
        "tern", "insert strap at tip\n    insert strap at back.strap_end", "insert strap at tip", ("strip ", "cut ")
    ),
    Mistake(
        "plover",
        "seam shoulder joins front.shoulder with back.shoulder as flat_felled",
        "seam shoulder joins front.shoulder with front.shoulder as flat_felled",
        ("seam ",),
    ),
    Mistake(
        "plover",
        "seam shoulder joins front.shoulder with back.shoulder as flat_felled",
        "seam shoulder joins front.shoulder with back.neckline as flat_felled",
        ("seam ", "shoulder "),
    ),
    Mistake(
        "plover",
        "seam neck joins front.neckline then back.neckline with front_facing.neckline then back_facing.neckline",
        "seam neck joins front.neckline then back.neckline with back_facing.neckline then front_facing.neckline",
    ),
    Mistake("plover", "seam side joins front.side with back.side", "seam side joins front.side with back.sid"),
    Mistake(
        "plover",
        "finish front.hem, back.hem as double_turned_hem { set hem = 25 mm; set tuck = 10 mm }\n",
        "",
        ("hem ",),
    ),
    Mistake("curlew", "finish front.armhole, back.armhole as bound", "finish front.armhole as bound", ("armhole ",)),
    Mistake(
        "curlew",
        "seam waist joins front.waist then back.waist with front_peplum.waist then back_peplum.waist",
        "seam waist joins front.waist then back.waist with front_peplum.hem then back_peplum.hem",
        ("waist ", "finish "),
    ),
    Mistake(
        "curlew",
        "seam peplum_side joins front_peplum.side with back_peplum.side",
        "seam peplum_side joins front_peplum.side with back.side",
        ("seam ",),
    ),
    # darts: forgotten, too wide, beside their edge, tip outside
    Mistake(
        "curlew",
        "  dart waist on waist at dart_place to dart_place up 13 cm taking waist_dart\n",
        "",
        ("seam ", "waist ", "dart "),
    ),
    Mistake(
        "curlew",
        "  dart waist on waist at dart_place to dart_place up 15 cm taking waist_dart\n",
        "",
        ("seam ", "waist ", "dart_place "),
    ),
    Mistake("curlew", "to dart_place up 15 cm taking waist_dart", "to dart_place down 15 cm taking waist_dart"),
    Mistake("curlew", "to dart_place up 15 cm taking waist_dart", "to dart_place up 15 cm taking 30 cm"),
    Mistake(
        "curlew",
        "dart waist on waist at dart_place to dart_place up 15 cm",
        "dart waist on side at dart_place to dart_place up 15 cm",
    ),
    # shaping of the heron
    Mistake("heron", "  redraw neckline\n", "", ("spread ", "grow ", "neckline ", "strap_seat ")),
    Mistake(
        "heron",
        "turn(neck_end, underarm, -drape)",
        "turn(neck_end, underarm, drape)",
        ("cut ", "grow ", "neckline ", "spread ", "redraw ", "centre "),
    ),
    Mistake("heron", "to armhole at 100 % by drape", "to armhole at 100 by drape"),
    Mistake("heron", "from neckline at 45 %", "from neck_line at 45 %"),
    # folds, grain, cut, ranges, names
    Mistake(
        "tern",
        "cut 1 on fold centre",
        "cut 1 on fold side",
        ("seam ", "side ", "centre "),
    ),
    Mistake(
        "tern",
        "cut 1 on fold centre",
        "cut 1",
        ("seam ", "centre ", "strip ", "insert "),
    ),
    Mistake(
        "tern",
        "grain bias along centre",
        "grain straight along centre",
        ("finish ", "hem "),
    ),
    Mistake(
        "tern",
        "tip_from_centre = bust_girth / 16 + 3 cm",
        "tip_from_centre = bust_girth / 16 + 30 cm",
        ("check ", "neckline ", "armhole ", "insert ", "strap_seat ", "strap_end "),
    ),
    Mistake("tern", 'piece back "Back" {', 'piece bak "Back" {', ("piece ", "seam ", "finish ")),
    Mistake("tern", "back_width  = bust_girth / 4", "back_width  = waist_girth / 4"),
    Mistake("tern", "length strap_path + (if", "length strap_path - (if", ("check ",)),
    Mistake(
        "plover",
        "outer_centre = front.neck_centre down facing_width",
        "outer_centre = front.neck_centre up facing_width",
        ("centre ", "outer_edge ", "neckline "),
    ),
    Mistake("plover", "measure bust_girth, upper_arm_girth,", "measure bust_girth,", ("upper_arm_girth",)),
]
