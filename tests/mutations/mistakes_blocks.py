"""Plausible drafting mistakes in the blocks, and in what is made of them."""

from __future__ import annotations

from tests.mutations.mistakes import Mistake

BODICE = "blocks/bodice"
CAMISOLE = "blocks/camisole"
CIRCLE = "blocks/circle_skirt"
STRAIGHT = "blocks/straight_skirt"
TROUSERS = "blocks/trousers"

BLOCK_MISTAKES = [
    # avocet: blocks, wrapped fronts, moved darts, a band, ties
    Mistake("avocet", 'from "blocks/bodice.garment"', 'from "bodice.garment"'),
    Mistake("avocet", "ease.waist_girth = 6 cm", "ease.waist_girth = 6"),
    Mistake("avocet", "cap_ease = 2.5 cm,", "cap_eas = 2.5 cm,"),
    Mistake(
        "avocet",
        "wrap_end     = waist_centre left overlap",
        "wrap_end     = waist_centre right overlap",
        ("crossing ", "wrap ", "waist "),
    ),
    Mistake("avocet", "param overlap = 14 cm", "param overlap = 14 mm", ("check ",)),
    Mistake("avocet", "pivot bust to side at 70 %", "pivot bust to side at 70 cm"),
    Mistake("avocet", "pivot bust to side at 70 %\n", "\n", ("dart ", "seam ", "side ", "redraw ")),
    Mistake("avocet", "pivot bust to side", "pivot waist_dart to side"),
    Mistake(
        "avocet",
        "dart waist_dart on waist at bust_point.x to bust_point down 2.5 cm",
        "dart waist_dart on waist at bust_point.x to bust_point down 25 cm",
    ),
    Mistake(
        "avocet",
        "piece back ",
        "piece back_body ",
        ("long ", "seam ", "finish "),
    ),
    Mistake(
        "avocet",
        'piece sleeve "Sleeve" from bodice.sleeve',
        'piece sleeve "Sleeve" from bodice.front',
        ("seam ", "keep ", "notch "),
    ),
    Mistake("avocet", "keep above level(crown down", "keep below level(crown down", ("seam ", "cap ", "notch ")),
    Mistake(
        "avocet",
        "long      = overlap + front.waist.sewn_length",
        "long      = overlap + front.waist.length",
        ("seam ",),
    ),
    Mistake("avocet", "long = back.waist.sewn_length", "long = 2 * back.waist.sewn_length", ("seam ",)),
    Mistake("avocet", "side_tie at left front.tie_place", "side_tie at left front_band.tie_place", ("tie_place ",)),
    Mistake("avocet", "  insert side_tie inside at right front.tie_place", "", ("strip ", "finish ", "tie_place ")),
    Mistake("avocet", "param sleeve_length = 44 cm", "param sleeve_length = 4 cm"),
    Mistake(
        "avocet",
        "with front.armhole then back.armhole as set_in {",
        "with back.armhole then front.armhole as set_in {",
        ("notch ",),
    ),
    Mistake(
        "avocet",
        "  ease bodice.cap_ease within 1 mm\n",
        "",
        ("seam armhole", "joins sleeve"),
    ),
    Mistake("avocet", "seam underarm joins sleeve.under_front with sleeve.under_back as plain\n", "", ("under_",)),
    Mistake(
        "avocet",
        "front_band.front_end with front_band.inner_front_end",
        "front_band.front_end with front_band.inner_side",
        ("seam ", "inner_front_end "),
    ),
    Mistake(
        "avocet", "finish front.wrap, back.neckline as bound", "finish back.neckline as bound", ("wrap ", "order ")
    ),
    Mistake(
        "avocet",
        "seam shoulder joins front.shoulder with back.shoulder",
        "seam shoulder joins front.shoulder with back.neckline",
    ),
    Mistake("avocet", "overlap = 14 cm from 10 cm", "overlap = 14 mm from 10 cm"),
    # tern_tunic
    Mistake("tern_tunic", 'varies "tern.garment"', 'varies "tren.garment"'),
    Mistake("tern_tunic", "set ease.bust_girth = 10 cm", "set bust_girth = 10 cm"),
    Mistake("tern_tunic", "set side_length = 34 cm", "set side_length = 34 in"),
    # heron
    Mistake(
        "heron",
        "replace front.neck_end = (tip_from_centre - 2 cm, rise)",
        "replace front.neck_end = (tip_from_centre - 2 cm, -rise)",
        ("neckline ", "strap_seat ", "armhole ", "spread "),
    ),
    Mistake("heron", "by drape\n", "by 120 deg\n", ("cut ", "neckline ", "grow ")),
    # the bodice and its sleeve
    Mistake(BODICE, "bust_girth / 12 + 13.7 cm", "bust_girth / 12 + 13.7 mm", ("dart ", "armhole ", "guide_level ")),
    Mistake(BODICE, "(bust_girth / 4 - 2.5 cm) / 1 cm * 1 deg", "(bust_girth / 4 - 2.5 cm) * 1 deg"),
    Mistake(
        BODICE,
        "heading -front_slope by 10 cm",
        "heading front_slope by 10 cm",
        ("solve cap_height", "shoulder", "armhole "),
    ),
    Mistake(BODICE, "pivot bust to armhole at upper_leg\n", "\n", ("dart ", "armhole ", "seam ", "waist ", "redraw ")),
    Mistake(
        BODICE,
        "back_panel  = back_width + between / 2",
        "back_panel  = back_width - between / 2",
        ("armhole ", "side ", "seam "),
    ),
    Mistake(
        BODICE,
        "waist_side   = (back_panel - dart_c / 2, -waist_level)",
        "waist_side   = (back_panel - dart_c / 2, waist_level)",
        ("side ", "waist ", "armhole ", "dart "),
    ),
    Mistake(
        BODICE,
        "by front.shoulder.length + shoulder_dart",
        "by front.shoulder.length - shoulder_dart",
        ("seam shoulder", "shoulder "),
    ),
    Mistake(
        BODICE,
        "dart shoulder on shoulder at distance(neck_side, dart_begin) + shoulder_dart / 2 to blade taking shoulder_dart\n",
        "\n",
        ("seam shoulder", "shoulder ", "dart_begin "),
    ),
    Mistake(
        BODICE,
        "param cap_height = 14 cm from 6 cm to 26 cm",
        "param cap_height = 14 cm from 6 cm to 12 cm",
        ("solve ",),
    ),
    Mistake(
        BODICE,
        "sleeve.front_cap.length == front.armhole.sewn_length + cap_ease / 2",
        "sleeve.front_cap.length == front.armhole.sewn_length + 2 * cap_ease",
        ("seam armhole",),
    ),
    Mistake(BODICE, "under_front : front_corner -> wrist_front", "under_front : front_corner -> wrist_back", ("hem ",)),
    Mistake(BODICE, "cap_height - outer_arm_length", "cap_height + outer_arm_length", ("under_", "hem ", "seam ")),
    # the camisole
    Mistake(CAMISOLE, "== back.upper.length within 0.1 mm", "== back.top.length within 0.1 mm", ("seam side",)),
    Mistake(
        CAMISOLE,
        "front.upper.sewn_length == back.upper.length",
        "front.upper.length == back.upper.length",
        ("seam side",),
    ),
    Mistake(
        CAMISOLE,
        "hem_side     = waist_side down",
        "hem_side     = waist_side up",
        ("hem ", "lower ", "upper ", "armhole "),
    ),
    Mistake(CAMISOLE, "to bust_point right 3 cm taking bust_dart", "to bust_point right 30 cm taking bust_dart"),
    Mistake(CAMISOLE, "param bust_dart = 2.5 cm", "param bust_dart = 25 cm"),
    Mistake(CAMISOLE, "with back.upper then back.lower as french", "with back.lower then back.upper as french"),
    # skirts
    Mistake(CIRCLE, "/ (2 * pi * share)", "/ (2 * pi + share)", ("waist ", "check ", "hem ")),
    Mistake(CIRCLE, "half_angle   = 90 deg * share", "half_angle   = 180 * share", ("waist_side ", "hem_side ")),
    Mistake(
        CIRCLE,
        "half_angle   = 90 deg * share",
        "half_angle   = 360 deg * share",
        ("front ", "hem ", "waist ", "side ", "cut ", "centre "),
    ),
    Mistake(
        CIRCLE,
        "waist  : waist_side -> waist_centre arc hollow radius waist_radius",
        "waist  : waist_side -> waist_centre arc hollow radius waist_radius / 2",
        ("waist ",),
    ),
    Mistake(
        CIRCLE,
        "hem_centre   = middle down hem_radius",
        "hem_centre   = middle up hem_radius",
        ("hem ", "side ", "centre ", "waist "),
    ),
    Mistake(
        STRAIGHT,
        "dart waist on waist at dart_place to dart_tip taking dart\n",
        "\n",
        ("seam ", "check ", "dart_place ", "dart_tip "),
    ),
    Mistake(
        STRAIGHT,
        "back_waist       = waist_girth / 4 + dart",
        "back_waist       = waist_girth / 2 + dart",
        ("check ", "hip ", "side ", "waist "),
    ),
    Mistake(
        STRAIGHT,
        "hip    : hip_side -> waist_side curve leaving up",
        "hip    : hip_side -> waist_side curve leaving down",
        ("hip ", "seam ", "side "),
    ),
    Mistake(STRAIGHT, "side_rise        = 1 cm", "side_rise        = 1 deg", ("waist_side ",)),
    Mistake(STRAIGHT, "ease hip_girth = 5 cm", "ease hip_girth = 5 mm"),
    Mistake(
        STRAIGHT,
        "seam side joins front.side then front.hip",
        "seam side joins front.hip then front.side",
        ("seam side", "joins "),
    ),
    # trousers
    Mistake(
        TROUSERS,
        "back.inside.length == front.inside.length",
        "back.inside.length == front.crotch.length",
        ("seam inside",),
    ),
    Mistake(
        TROUSERS,
        "crotch_level = -body_rise",
        "crotch_level = body_rise",
        ("crotch ", "centre ", "hip_and_thigh ", "inside ", "dart ", "curve "),
    ),
    Mistake(
        TROUSERS,
        "front_hem    = bottom_width / 2 - 0.5 cm",
        "front_hem    = bottom_width / 2 - 0.5 in * 20",
        ("hem ", "inside ", "calf"),
    ),
    Mistake(TROUSERS, "back.crotch then back.centre with its mirror", "back.crotch with its mirror", ("centre ",)),
    Mistake(TROUSERS, "with its mirror as plain", "with back.centre as plain", ("seam crotch",)),
    Mistake(
        TROUSERS,
        "fork         = fork_corner left front_fork",
        "fork         = fork_corner right front_fork",
        ("check ", "crotch ", "inside ", "curve ", "seam "),
    ),
    Mistake(TROUSERS, "cut pair", "cut 2", ("seam crotch", "seam ")),
]
