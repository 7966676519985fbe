"""The texts of a draft by hand, each in English and in German; what stands in braces is filled in."""

from __future__ import annotations

BY_HAND: dict[str, tuple[str, str]] = {
    "hand_title": ("{title}, {size}: draw the pattern by hand", "{title}, {size}: den Schnitt von Hand zeichnen"),
    "hand_parts": ("Parts of this page", "Teile dieser Seite"),
    # before the first piece
    "hand_before": ("Before you begin", "Vor dem Anfang"),
    "hand_about": (
        "{name}, edition {edition}, {size}, fingerprint {mark}. The printed pattern of the same fingerprint has the "
        "same lines.",
        "{name}, Ausgabe {edition}, {size}, Kennung {mark}. Der gedruckte Schnitt mit der gleichen Kennung hat die "
        "gleichen Linien.",
    ),
    "hand_tools": (
        "You need paper, a long ruler, a set square, a tape measure and a sharp pencil.",
        "Gebraucht werden Papier, ein langes Lineal, ein Geodreieck, ein Maßband und ein spitzer Bleistift.",
    ),
    "hand_ways": (
        "Up, down, left and right are those of the paper, which stays as it lies. “Square” means at a right angle: "
        "set one side of the set square on the line and draw along the other. Points of the draft have letters, "
        "points of the cut line have numbers; when a letter or number comes again it is the same point. Where two "
        "curves of one edge meet, let the line run on through the point without a corner.",
        "Oben, unten, links und rechts sind die des Papiers, das liegen bleibt, wie es liegt. „Rechtwinklig“ heißt: "
        "eine Seite des Geodreiecks an die Linie legen und an der anderen entlang zeichnen. Punkte des Entwurfs haben "
        "Buchstaben, Punkte der Schnittlinie Zahlen; gleiche Buchstaben und Zahlen sind derselbe Punkt. Wo sich zwei "
        "Kurven einer Kante treffen, läuft die Linie ohne Ecke durch den Punkt.",
    ),
    "hand_rounding_cm": (
        "All numbers are rounded to 1 mm. No point is moved by more than {moved}, and rounding errors do not add up: "
        "each point was rounded for itself.",
        "Alle Zahlen sind auf 1 mm gerundet. Kein Punkt ist um mehr als {moved} verschoben, und die Fehler summieren "
        "sich nicht: Jeder Punkt ist für sich gerundet.",
    ),
    "hand_rounding_inch": (
        "All numbers are rounded to 1/8 in, and to 1/16 in (halfway between two marks) for curves and where 1/8 in "
        "would move a point too far. No point is moved by more than {moved}, and rounding errors do not add up: "
        "each point was rounded for itself.",
        "Alle Zahlen sind auf 1/8 Zoll gerundet, bei Kurven und wo das einen Punkt zu weit verschöbe auf 1/16 Zoll "
        "(die Mitte zwischen zwei Strichen). Kein Punkt ist um mehr als {moved} verschoben, und die Fehler summieren "
        "sich nicht: Jeder Punkt ist für sich gerundet.",
    ),
    "hand_cautions": (
        "This is the pattern alone. How to sew it, and the cautions about blades, irons and cords, stand in the "
        "construction sheet; local rules come first.",
        "Dies ist nur der Schnitt. Wie genäht wird, und was bei Klingen, Bügeleisen und Kordeln zu beachten ist, steht "
        "in der Nähanleitung; örtliche Vorschriften gehen vor.",
    ),
    "hand_strips": ("Strips to cut without a pattern", "Streifen, die ohne Schnittteil zugeschnitten werden"),
    # steps
    "hand_begin": ("Begin", "Anfang"),
    "hand_fold": ("Fold: {name}", "Stoffbruch: {name}"),
    "hand_turned": ("Middle: {name}", "Mitte: {name}"),
    "hand_edge": ("Edge: {name}", "Kante: {name}"),
    "hand_proof": ("Prove it", "Prüfen"),
    "hand_taken": ("Inside: {name}", "Innen: {name}"),
    "hand_inner": ("Inside: {name}", "Innen: {name}"),
    "hand_cut": ("Cut line: {name}", "Schnittlinie: {name}"),
    "hand_notches": ("Notches", "Knipse"),
    "hand_marks": ("Marks", "Markierungen"),
    "hand_grain": ("Grain", "Fadenlauf"),
    "hand_label": ("Label and cut out", "Beschriften und ausschneiden"),
    # what is done
    "hand_paper": (
        "Take a paper at least {width} wide and {height} high. Mark {spot}, {left} from its left edge and {low} from "
        "its lower edge.",
        "Ein Papier nehmen, mindestens {width} breit und {height} hoch. {spot} markieren, {left} vom linken und {low} "
        "vom unteren Rand.",
    ),
    "hand_measure": (
        "From {origin} measure {first} {way} and mark {spot}.",
        "Von {origin} aus {first} {way} messen und {spot} markieren.",
    ),
    "hand_measure_two": (
        "From {origin} measure {first} {way}, then square to that {second} {other}, and mark {spot}.",
        "Von {origin} aus {first} {way} messen, dann rechtwinklig dazu {second} {other}, und {spot} markieren.",
    ),
    "hand_same": ("{spot} falls on {origin}.", "{spot} fällt auf {origin}."),
    "way_up": ("up", "nach oben"),
    "way_down": ("down", "nach unten"),
    "way_right": ("to the right", "nach rechts"),
    "way_left": ("to the left", "nach links"),
    "hand_join": (
        "Join {start} and {end} with a straight line: {purpose}.",
        "{start} und {end} mit einer geraden Linie verbinden: {purpose}.",
    ),
    "hand_curve": (
        "Draw a thin straight line from {start} to {end}. Along it, from {start} on, mark the places of the table, and "
        "from each measure the height square to the line, on the side that the table says, looking from {start} to "
        "{end}. Join {start}, all marks and {end} with one smooth curve: {purpose}.",
        "Eine dünne gerade Linie von {start} nach {end} ziehen. Auf ihr, von {start} aus, die Stellen der Tabelle "
        "markieren und von jeder die Höhe rechtwinklig zur Linie messen, auf der Seite, die die Tabelle nennt "
        "(in Blickrichtung von {start} nach {end}). {start}, alle Marken und {end} mit einer glatten Kurve "
        "verbinden: {purpose}.",
    ),
    "hand_table": ("Curve from {start} to {end} ({unit})", "Kurve von {start} nach {end} ({unit})"),
    "unit_cm": ("cm", "cm"),
    "unit_inch": ("in", "Zoll"),
    "hand_along": ("along the line", "auf der Linie"),
    "hand_left": ("to its left", "nach links"),
    "hand_right": ("to its right", "nach rechts"),
    "hand_parallel": (
        "Draw a curve from {start} to {end}, everywhere {width} outside the stitching line: mark {width} square out "
        "from it every {step} and join the marks. This is {purpose}.",
        "Eine Kurve von {start} nach {end} ziehen, überall {width} außerhalb der Nahtlinie: alle {step} rechtwinklig "
        "{width} nach außen messen, markieren und die Marken verbinden. Das ist {purpose}.",
    ),
    "hand_notch": (
        "From {origin} measure {along} along the {edge} and cut or draw a notch there, from the cut line inward.",
        "Von {origin} aus {along} entlang der Kante „{edge}“ messen und dort einen Knips setzen, von der Schnittlinie "
        "nach innen.",
    ),
    "hand_notch_slits": (
        "From {origin} measure {along} along the {edge} and cut or draw a notch of {slits} slits there, {wide} apart "
        "and even to both sides, from the cut line inward.",
        "Von {origin} aus {along} entlang der Kante „{edge}“ messen und dort {slits} Knipse im Abstand {wide} setzen, "
        "gleich weit zu beiden Seiten, von der Schnittlinie nach innen.",
    ),
    "hand_notch_corner": (
        "At {origin}, where the {edge} ends, cut or draw a notch from the corner of the cut line toward {origin}.",
        "Bei {origin}, wo die Kante „{edge}“ endet, einen Knips von der Ecke der Schnittlinie auf {origin} zu setzen.",
    ),
    "hand_cross": ("Draw a small cross at {spot}: “{text}”.", "Bei {spot} ein kleines Kreuz zeichnen: „{text}“."),
    "hand_across": (
        "Straight across from {start} to {end} it is {length}.",
        "Geradewegs von {start} nach {end} sind es {length}.",
    ),
    "hand_across_off": (
        "If it is off by more than 3 mm (1/8 in), a corner is not square: measure again before you go on.",
        "Wenn es mehr als 3 mm (1/8 Zoll) anders ist, stimmt ein rechter Winkel nicht: vor dem Weitermachen "
        "nachmessen.",
    ),
    "hand_grain_upright": (
        "Draw a long arrow anywhere inside, straight up and down: the lengthwise threads.",
        "Irgendwo im Teil einen langen Pfeil zeichnen, senkrecht: die Längsfäden.",
    ),
    "hand_grain_level": (
        "Draw a long arrow anywhere inside, level from left to right: the lengthwise threads.",
        "Irgendwo im Teil einen langen Pfeil zeichnen, waagerecht: die Längsfäden.",
    ),
    "hand_grain_right": (
        "From any point inside measure {level} to the right and {rise} up. A long arrow through both points is the "
        "lengthwise threads.",
        "Von einem Punkt im Teil {level} nach rechts und {rise} nach oben messen. Ein langer Pfeil durch beide Punkte "
        "ist der Fadenlauf.",
    ),
    "hand_grain_left": (
        "From any point inside measure {level} to the left and {rise} up. A long arrow through both points is the "
        "lengthwise threads.",
        "Von einem Punkt im Teil {level} nach links und {rise} nach oben messen. Ein langer Pfeil durch beide Punkte "
        "ist der Fadenlauf.",
    ),
    "hand_write": (
        "Write on the piece: {title}; {piece}; {size}; {cut}; edition {edition}; {mark}.",
        "Auf das Teil schreiben: {title}; {piece}; {size}; {cut}; Ausgabe {edition}; {mark}.",
    ),
    "hand_cut_out": (
        "Cut the paper along the cut line, and along the line where no allowance is drawn.",
        "Das Papier an der Schnittlinie ausschneiden, und an der Linie, wo keine Zugabe gezeichnet ist.",
    ),
    # what a line is
    "line_is_fold": ("the fold of the cloth, {name}", "der Stoffbruch, {name}"),
    "line_is_turned": ("where the pattern is turned over, {name}", "hier wird das Schnittteil gewendet, {name}"),
    "line_is_stitch": ("the stitching line, {name}", "die Nahtlinie, {name}"),
    "line_is_both": ("cut on this line, no allowance, {name}", "hier schneiden, ohne Zugabe, {name}"),
    "line_is_edge": ("the finished edge, {name}", "die fertige Kante, {name}"),
    "line_is_cut": ("the cut line, {name}", "die Schnittlinie, {name}"),
    "line_is_dart": ("a leg of the {name}", "ein Schenkel, {name}"),
    "line_is_pleat": ("a line of the {name}", "eine Linie, {name}"),
    "line_is_foldline": ("a fold line, {name}", "eine Faltlinie, {name}"),
    "line_is_lengthen": ("lengthen or shorten here, {name}", "hier verlängern oder kürzen, {name}"),
    "line_is_buttonhole": ("a buttonhole, {name}", "ein Knopfloch, {name}"),
    "line_is_guide": ("a guide, {name}", "eine Hilfslinie, {name}"),
    # pictures
    "hand_picture": (
        "What is drawn after this step; the new lines are heavy.",
        "Was nach diesem Schritt gezeichnet ist; die neuen Linien sind dick.",
    ),
    # seams
    "hand_seams": ("What the rounding does to the seams", "Was das Runden mit den Nähten macht"),
    "hand_seams_text": (
        "Both sides of each seam, as the draft has them and as they come out when drawn from these numbers. The last "
        "column is by how much the rounding alone sets the two sides apart: at most {most}. Share it out evenly while "
        "pinning, notch to notch.",
        "Beide Seiten jeder Naht, wie der Entwurf sie hat und wie sie aus diesen Zahlen gezeichnet herauskommen. Die "
        "letzte Spalte sagt, um wie viel allein das Runden die Seiten ungleich macht: höchstens {most}. Beim Stecken "
        "gleichmäßig verteilen, von Knips zu Knips.",
    ),
    "hand_seams_table": ("Lengths along the stitching line", "Längen auf der Nahtlinie"),
    "hand_seam": ("Seam", "Naht"),
    "hand_first": ("first side", "erste Seite"),
    "hand_first_drawn": ("as drawn", "gezeichnet"),
    "hand_second": ("second side", "zweite Seite"),
    "hand_second_drawn": ("as drawn", "gezeichnet"),
    "hand_apart": ("set apart by", "Unterschied"),
}
