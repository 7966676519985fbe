"""Two garments that can be sewn, to be put together wrongly."""

from __future__ import annotations

from typing import NamedTuple

TOP = """garment knot "Knot, a top with sleeves, a neck facing and ties"
edition 1
piece front "Front" {
  cut 1 on fold centre
  grain straight along centre
  outline {
    centre   : (0 cm, 0 cm) -> (0 cm, 50 cm)
    neckline : (0 cm, 50 cm) -> (10 cm, 56 cm) curve leaving right, arriving square to shoulder
    shoulder : (10 cm, 56 cm) -> (24 cm, 52 cm)
    armhole  : (24 cm, 52 cm) -> (24 cm, 32 cm)
    side     : (24 cm, 32 cm) -> (24 cm, 0 cm)
    hem      : (24 cm, 0 cm) -> (0 cm, 0 cm)
  }
  low_place  = along(side, 28 cm)
  high_place = along(side, 14 cm)
  dart bust on side at 5 cm to (13 cm, 28 cm) taking 2 cm
}
piece back "Back" {
  cut pair
  grain straight along centre
  outline {
    centre   : (0 cm, 0 cm) -> (0 cm, 53 cm)
    neckline : (0 cm, 53 cm) -> (10 cm, 56 cm) curve leaving right, arriving square to shoulder
    shoulder : (10 cm, 56 cm) -> (24 cm, 52 cm)
    armhole  : (24 cm, 52 cm) -> (24 cm, 30 cm)
    side     : (24 cm, 30 cm) -> (24 cm, 0 cm)
    hem      : (24 cm, 0 cm) -> (0 cm, 0 cm)
  }
}
piece front_facing "Front facing" {
  cut 1 on fold centre
  grain straight along centre
  outline {
    centre   : (0 cm, 44 cm) -> (0 cm, 50 cm)
    neckline : front.neckline
    shoulder : (10 cm, 56 cm) -> front.shoulder.start toward front.shoulder.end by 5 cm
    outer    : shoulder.end -> (0 cm, 44 cm)
  }
}
piece back_facing "Back facing" {
  cut 1 on fold centre
  grain straight along centre
  outline {
    centre   : (0 cm, 47 cm) -> (0 cm, 53 cm)
    neckline : back.neckline
    shoulder : (10 cm, 56 cm) -> back.shoulder.start toward back.shoulder.end by 5 cm
    outer    : shoulder.end -> (0 cm, 47 cm)
  }
}
piece sleeve "Sleeve" {
  cut pair
  grain straight
  back_reach = sqrt(22 cm * 22 cm - 12 cm * 12 cm)
  top        = (0 cm, 30 cm)
  outline {
    cuff      : (-14 cm, 0 cm) -> (back_reach - 2 cm, 0 cm)
    back_arm  : (back_reach - 2 cm, 0 cm) -> (back_reach, 18 cm)
    back_cap  : (back_reach, 18 cm) -> top
    front_cap : top -> (-16 cm, 18 cm)
    front_arm : (-16 cm, 18 cm) -> (-14 cm, 0 cm)
  }
}
strip tie "Tie" { cut 2; length 60 cm; width 3 cm; make tube stitched 5 mm from edge }
strip loop "Loop" { cut 2; length 6 cm; width 2.5 cm; make tube stitched 5 mm from edge }

seam centre joins back.centre with its mirror as french
seam shoulder joins front.shoulder with back.shoulder as flat_felled
seam facing_shoulder joins front_facing.shoulder with back_facing.shoulder as plain
seam neck joins front.neckline then back.neckline with front_facing.neckline then back_facing.neckline as enclosed
seam side joins front.side with back.side as plain {
  insert tie at low_place
  insert loop folded at high_place
}
seam under joins sleeve.front_arm with sleeve.back_arm as plain
seam armhole joins front.armhole then back.armhole with sleeve.front_cap then sleeve.back_cap as plain

finish front_facing.outer, back_facing.outer as overedged
finish sleeve.cuff as turned_hem
finish front.hem, back.hem as double_turned_hem
finish tie.ends as tucked_in
"""

BAG = """garment knot "Knot, a lined bag"
edition 1
piece face "Front" {
  cut 1
  grain straight
  outline {
    bottom : (0 cm, 0 cm) -> (36 cm, 0 cm)
    right_side : (36 cm, 0 cm) -> (36 cm, 40 cm)
    top : (36 cm, 40 cm) -> (0 cm, 40 cm)
    left_side : (0 cm, 40 cm) -> (0 cm, 0 cm)
  }
  handle_place = along(top, 30 %)
  other_place = along(top, 70 %)
}
piece rear "Back" from face { }
piece inner_face "Front lining" {
  cut 1
  grain straight
  outline {
    bottom : (0 cm, 0 cm) -> (12 cm, 0 cm)
    opening : (12 cm, 0 cm) -> (24 cm, 0 cm)
    rest : (24 cm, 0 cm) -> (36 cm, 0 cm)
    right_side : (36 cm, 0 cm) -> (36 cm, 40 cm)
    top : (36 cm, 40 cm) -> (0 cm, 40 cm)
    left_side : (0 cm, 40 cm) -> (0 cm, 0 cm)
  }
}
piece inner_rear "Back lining" from inner_face { }
strip handle "Handle" { cut 1; length 50 cm; width 8 cm; make quartered }

seam bag joins face.left_side then face.bottom then face.right_side
    with rear.left_side then rear.bottom then rear.right_side as plain
seam inner_left joins inner_face.left_side then inner_face.bottom with inner_rear.left_side then inner_rear.bottom as plain
seam inner_right joins inner_face.rest then inner_face.right_side with inner_rear.rest then inner_rear.right_side as plain
seam rim joins face.top then rear.top with inner_face.top then inner_rear.top as enclosed {
  insert handle at handle_place
  insert handle at other_place
}
seam opening joins inner_face.opening with inner_rear.opening as hand_closed
"""

PATCHES = "".join(
    [
        'garment knot "Knot, four patches"\nedition 1\n',
        *(
            f'piece {name} "{name.upper()}" {{\n  cut 1\n  grain straight\n  outline {{ {edges} }}\n}}\n'
            for name in ("north_west", "north_east", "south_west", "south_east")
            for edges in (
                "low : (0 cm, 0 cm) -> (20 cm, 0 cm); east : (20 cm, 0 cm) -> (20 cm, 20 cm); "
                "high : (20 cm, 20 cm) -> (0 cm, 20 cm); west : (0 cm, 20 cm) -> (0 cm, 0 cm)",
            )
        ),
        "seam north joins north_west.east with north_east.west as plain\n",
        "seam south joins south_west.east with south_east.west as plain\n",
        "seam middle joins north_west.low then north_east.low with south_west.high then south_east.high as plain\n",
        "finish north_west.west, south_west.west, north_east.east, south_east.east as pinked\n",
        "finish north_west.high, north_east.high, south_west.low, south_east.low as pinked\n",
    ]
)


class Wrong(NamedTuple):
    """What is ``wrong`` in place of ``right`` in a garment; the one finding of it and how the line it is at begins."""

    what: str
    garment: str
    right: str
    wrong: str
    slug: str
    line: str


SIDE = "seam side joins front.side with back.side as plain {"
SHOULDER = "seam shoulder joins front.shoulder with back.shoulder as flat_felled"
NECK = (
    "seam neck joins front.neckline then back.neckline with front_facing.neckline then back_facing.neckline as enclosed"
)
ARMHOLE = "seam armhole joins front.armhole then back.armhole with sleeve.front_cap then sleeve.back_cap as plain"
CENTRE = "seam centre joins back.centre with its mirror as french"
CLOSED = "seam opening joins inner_face.opening with inner_rear.opening as hand_closed"
NORTH_SOUTH = """seam north joins north_west.east with north_east.west as plain
seam south joins south_west.east with south_east.west as plain"""
ONE_WAY = "seam upright joins north_west.east then south_west.east with north_east.west then south_east.west as plain"
UNDER = "seam under joins sleeve.front_arm with sleeve.back_arm as plain"
HEM = "finish front.hem, back.hem as double_turned_hem"

WRONG = [
    # ---- which edges a seam joins
    Wrong("missing seam", TOP, f"{CENTRE}\n", "", "raw-edge", "centre   : (0 cm, 0 cm) -> (0 cm, 53 cm)"),
    Wrong("missing hem of one piece", TOP, "front.hem, back.hem", "front.hem", "raw-edge", "hem      : (24 cm, 0 cm)"),
    Wrong("wrong partner", TOP, UNDER, UNDER.replace("sleeve.back_arm", "back.side"), "edge-used-twice", "seam under"),
    Wrong("hem for a partner", TOP, UNDER, UNDER.replace("back_arm", "cuff"), "edge-used-twice", "seam under"),
    Wrong("fold sewn", TOP, "with its mirror as", "with front.centre as", "edge-used-twice", "seam centre"),
    Wrong(
        "hem in a chain", TOP, ARMHOLE, ARMHOLE.replace("back.armhole", "back.hem"), "edge-used-twice", "seam armhole"
    ),
    Wrong("missing joint of a chain", TOP, f"{SHOULDER}\n", "", "chain-broken", "seam neck"),
    Wrong(
        "chain that leaves an edge out",
        BAG,
        "rear.bottom then rear.right_side",
        "rear.bottom",
        "seam-lengths-differ",
        "seam bag",
    ),
    Wrong(
        "edge of a seam hemmed too",
        TOP,
        "sleeve.cuff as",
        "sleeve.cuff, back.side as",
        "edge-used-twice",
        "finish sleeve.cuff",
    ),
    Wrong(
        "seam to itself",
        TOP,
        "joins back.centre with its mirror",
        "joins back.centre with back.centre",
        "seam-to-itself",
        "seam centre",
    ),
    Wrong(
        "left to left",
        TOP,
        "cut pair\n  grain straight along centre",
        "cut 2\n  grain straight along centre",
        "no-mirror",
        "seam centre",
    ),
    Wrong(
        "mirror of a single piece",
        TOP,
        "as french",
        "as french\nseam cuff joins handle.ends with its mirror as plain",
        "unknown-name",
        "seam cuff",
    ),
    Wrong(
        "hem on a fold",
        TOP,
        "finish sleeve.cuff",
        "finish sleeve.cuff, front.centre",
        "edge-used-twice",
        "finish sleeve.cuff",
    ),
    Wrong("hem written twice", TOP, HEM, f"{HEM}\nfinish back.hem as pinked", "edge-used-twice", "finish back.hem"),
    Wrong(
        "sleeve cut once",
        TOP,
        'piece sleeve "Sleeve" {\n  cut pair',
        'piece sleeve "Sleeve" {\n  cut 1',
        "unequal-copies",
        "seam armhole",
    ),
    Wrong(
        "edge that is not there",
        TOP,
        "back_facing.outer as",
        "back_facing.lower as",
        "unknown-name",
        "finish front_facing.outer",
    ),
    # ---- chains
    Wrong(
        "twisted chain",
        TOP,
        "with sleeve.front_cap then sleeve.back_cap",
        "with sleeve.back_cap then sleeve.front_cap",
        "joints-apart",
        "seam armhole",
    ),
    Wrong(
        "chain over a joint nothing sews",
        TOP,
        "seam facing_shoulder joins front_facing.shoulder with back_facing.shoulder as plain",
        "finish front_facing.shoulder, back_facing.shoulder as pinked",
        "chain-broken",
        "seam neck",
    ),
    Wrong(
        "chain against its own way",
        BAG,
        "face.left_side then face.bottom then face.right_side",
        "face.left_side then face.right_side then face.bottom",
        "chain-broken",
        "seam bag",
    ),
    # ---- lengths
    Wrong(
        "dart forgotten",
        TOP,
        "  dart bust on side at 5 cm to (13 cm, 28 cm) taking 2 cm\n",
        "",
        "seam-lengths-differ",
        "seam side",
    ),
    Wrong(
        "ease on the wrong side", TOP, f"{ARMHOLE}", f"{ARMHOLE} {{ ease 2 cm }}", "seam-lengths-differ", "seam armhole"
    ),
    Wrong(
        "gathers where nothing is longer",
        TOP,
        f"{ARMHOLE}",
        f"{ARMHOLE} {{ gathered 0.9 }}",
        "gathers-nothing",
        "seam armhole",
    ),
    Wrong(
        "gathered more than there is",
        TOP,
        f"{ARMHOLE}",
        f"{ARMHOLE} {{ gathered 1.5 }}",
        "seam-lengths-differ",
        "seam armhole",
    ),
    # ---- inserts
    Wrong(
        "insert nowhere", TOP, "insert tie at low_place", "insert tie at sleeve.top", "insert-off-seam", "insert tie"
    ),
    Wrong(
        "insert beside the seam",
        TOP,
        "low_place  = along(side, 28 cm)",
        "low_place  = along(hem, 6 cm)",
        "insert-off-seam",
        "insert tie",
    ),
    Wrong(
        "insert in a corner",
        TOP,
        "low_place  = along(side, 28 cm)",
        "low_place  = along(side, 31.8 cm)",
        "insert-no-room",
        "insert tie",
    ),
    Wrong(
        "insert on an insert",
        TOP,
        "high_place = along(side, 14 cm)",
        "high_place = along(side, 28 cm)",
        "inserts-overlap",
        "insert loop",
    ),
    Wrong(
        "too few cut", TOP, 'strip tie "Tie" { cut 2', 'strip tie "Tie" { cut 1', "strips-unlike-places", "strip tie"
    ),
    Wrong("ends left raw", TOP, "finish tie.ends as tucked_in\n", "", "raw-strip", "strip tie"),
    Wrong(
        "ends that are caught finished",
        TOP,
        "finish tie.ends",
        "finish loop.ends, tie.ends",
        "edge-used-twice",
        "finish loop.ends",
    ),
    # ---- turning
    Wrong("no way to turn", BAG, "as hand_closed", "as plain", "no-way-to-turn", "seam rim"),
    Wrong("opening too small to turn", BAG, "(24 cm, 0 cm)", "(15 cm, 0 cm)", "opening-too-small", "seam rim"),
    # ---- what cannot be sewn that way
    Wrong(
        "found on a slanting edge",
        TOP,
        "finish front_facing.outer, back_facing.outer as overedged",
        "finish front_facing.outer as found\nfinish back_facing.outer as overedged",
        "found-not-along-thread",
        "finish front_facing",
    ),
    Wrong(
        "widths that do not fit", TOP, SHOULDER, f"{SHOULDER} {{ set trimmed = 12 mm }}", "check-fails", "seam shoulder"
    ),
    # ---- order
    Wrong(
        "steps in a ring", TOP, HEM, f'{HEM}\nstep one "a" after two\nstep two "b" after one', "order-ring", "step one"
    ),
    Wrong("step after nothing", TOP, HEM, f'{HEM}\nstep one "a" after sides', "unknown-name", "step one"),
    Wrong("order of nothing", TOP, HEM, f"{HEM}\norder front.neck before side", "unknown-name", "order front.neck"),
    Wrong("cyclic order", TOP, HEM, f"{HEM}\norder side after under\norder under after side", "order-ring", "order "),
    Wrong("order with itself", TOP, HEM, f"{HEM}\norder side after front.side", "out-of-reach", "order side"),
    Wrong("hem before side seam", TOP, HEM, f"{HEM}\norder front.hem before side", "out-of-reach", "order front.hem"),
    Wrong("unreachable seam", TOP, HEM, f"{HEM}\norder shoulder after neck", "out-of-reach", "order shoulder"),
    Wrong(
        "facing sewn up too late", TOP, HEM, f"{HEM}\norder facing_shoulder after neck", "out-of-reach", "order facing"
    ),
    Wrong("middle seam too late", TOP, HEM, f"{HEM}\norder centre after neck", "out-of-reach", "order centre"),
    Wrong("dart after its seam", TOP, HEM, f"{HEM}\norder front.bust after side", "out-of-reach", "order front.bust"),
    Wrong("tie made too late", TOP, HEM, f"{HEM}\norder tie after side", "out-of-reach", "order tie"),
    Wrong(
        "all seams of an armhole after the sleeve",
        TOP,
        HEM,
        f"{HEM}\norder shoulder after armhole\norder side after armhole",
        "out-of-reach",
        "order ",
    ),
    Wrong(
        "sleeve cut twice, not as a pair",
        TOP,
        'piece sleeve "Sleeve" {\n  cut pair',
        'piece sleeve "Sleeve" {\n  cut 2',
        "wrong-side-out",
        "seam armhole",
    ),
    Wrong(
        "facing named first",
        TOP,
        "joins front.neckline then back.neckline with front_facing.neckline then back_facing.neckline",
        "joins front_facing.neckline then back_facing.neckline with front.neckline then back.neckline",
        "inside-out",
        "seam neck",
    ),
    Wrong(
        "three orders in a ring",
        TOP,
        HEM,
        f"{HEM}\norder side before shoulder\norder shoulder before centre\norder centre before side",
        "order-ring",
        "order ",
    ),
    Wrong(
        "opening where a seam is", TOP, HEM, f'{HEM}\nopening side "Side" at front.side', "no-opening", "opening side"
    ),
    Wrong(
        "closed before it is turned",
        BAG,
        CLOSED,
        f"{CLOSED}\norder opening before rim",
        "out-of-reach",
        "order opening",
    ),
    Wrong("seams that run over each other", PATCHES, NORTH_SOUTH, ONE_WAY, "order-ring", "seam upright"),
]
