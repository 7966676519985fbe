"""All texts, each in English and in German; what stands in braces is filled in."""

from __future__ import annotations

from garmentc.output.texts.byhand import BY_HAND

LANGUAGES = ("en", "de")
"""The order in which each text gives its languages."""

TEXTS: dict[str, tuple[str, str]] = {
    "and": ("{first} and {last}", "{first} und {last}"),
    # the foot of a page
    "page_of": ("page {page} of {pages}", "Seite {page} von {pages}"),
    "edition": ("edition {edition}", "Ausgabe {edition}"),
    "print_at_100": ('print at 100 % ("actual size")', "mit 100 % drucken („tatsächliche Größe“)"),
    # the first page
    "size": ("size {size}", "Größe {size}"),
    "person": ("for {name}", "für {name}"),
    "sizes": ("sizes {sizes}", "Größen {sizes}"),
    "sizes_range": ("sizes {first} to {last}", "Größen {first} bis {last}"),
    "fingerprint": ("fingerprint {mark}", "Kennung {mark}"),
    "made_by": ("made by {name}", "von {name}"),
    "paper": ("{paper}, {pages}", "{paper}, {pages}"),
    "one_page": ("1 page", "1 Seite"),
    "many_pages": ("{pages} pages", "{pages} Seiten"),
    "check_title": ("Check the print first", "Zuerst den Druck prüfen"),
    "check_text": (
        "Print at 100 % (“actual size”), without fitting to the page. Measure the square and both bars with a ruler. "
        "If one of them is not exact, change the settings of the printer and print again before you cut.",
        "Mit 100 % drucken („tatsächliche Größe“), ohne Anpassen an die Seite. Das Quadrat und beide Maßstäbe mit dem "
        "Lineal messen. Stimmt eines davon nicht genau, die Einstellungen des Druckers ändern und neu drucken, bevor "
        "etwas geschnitten wird.",
    ),
    "square_side": ("each side 5 cm", "jede Seite 5 cm"),
    "bar_cm": ("10 cm", "10 cm"),
    "bar_inch": ("4 inches", "4 Zoll"),
    "map_title": ("How the pages lie", "So liegen die Seiten"),
    "join_text": (
        "Cut each page along its thin lines at the left and lower edges, lay it over the page beside it so that line "
        "and diamond with the same number meet, and tape it. The numbers in the map are those of the pages.",
        "Jede Seite an den dünnen Linien links und unten abschneiden, so über die Nachbarseite legen, dass Linie und "
        "Raute mit der gleichen Nummer aufeinander liegen, und ankleben. Die Zahlen im Plan sind die der Seiten.",
    ),
    "true_scale": (
        "True to scale: one unit of the drawing is one millimetre.",
        "Maßstabsgetreu: eine Einheit der Zeichnung ist ein Millimeter.",
    ),
    "one_sheet_text": ("All pieces lie on this sheet.", "Alle Teile liegen auf diesem Bogen."),
    "lines_title": ("Lines", "Linien"),
    "line_cut": ("cut here", "hier schneiden"),
    "line_stitch": ("stitch here", "hier nähen"),
    "line_fold": ("fold of the cloth, or fold line", "Stoffbruch oder Umbruch"),
    "line_grain": ("lengthwise threads", "Fadenlauf"),
    "sizes_title": ("Cut line of each size", "Schnittlinie jeder Größe"),
    "no_stitching": (
        "The allowances are included; the stitching lines are not drawn.",
        "Die Nahtzugaben sind enthalten; die Nahtlinien sind nicht gezeichnet.",
    ),
    "all_sizes": ("all sizes", "alle Größen"),
    "strips_title": ("Cut these without a pattern", "Ohne Schnittteil zuschneiden"),
    "strip_sizes": (
        "{title}: {cut}, {width} wide, as long as: {lengths}",
        "{title}: {cut}, {width} breit, so lang wie: {lengths}",
    ),
    "strip_one": ("{title}: {cut}, {length} long, {width} wide", "{title}: {cut}, {length} lang, {width} breit"),
    "strip_size": ("{size}: {length}", "{size}: {length}"),
    # how often a piece is cut
    "cut": ("cut {number}", "{number} × zuschneiden"),
    "cut_fold": ("cut {number} on the fold", "{number} × im Stoffbruch zuschneiden"),
    "cut_unfolded": ("cut {number} on single cloth, unfolded", "{number} × einlagig und offen zuschneiden"),
    "cut_pair": ("cut a pair", "1 Paar gegengleich zuschneiden"),
    "cut_pairs": ("cut {number} pairs", "{number} Paare gegengleich zuschneiden"),
    "interfacing": (
        "of interfacing too, without allowances: {text}",
        "auch aus Einlage, ohne Zugaben: {text}",
    ),
    "interfacing_whole": (
        "of interfacing too, with the allowances: {text}",
        "auch aus Einlage, mit den Zugaben: {text}",
    ),
    "drawn_left": ("the left one, as worn, is drawn", "gezeichnet ist das linke, wie getragen"),
    "drawn_right": ("the right one, as worn, is drawn", "gezeichnet ist das rechte, wie getragen"),
    # the label of a piece, and words beside its lines
    "grain_straight": ("straight grain, as the arrow", "im Fadenlauf, wie der Pfeil"),
    "grain_cross": (
        "cross grain: lengthwise threads as the arrow",
        "quer zum Fadenlauf: Längsfäden wie der Pfeil",
    ),
    "grain_bias": ("on the bias: lengthwise threads as the arrow", "im Schrägschnitt: Längsfäden wie der Pfeil"),
    "set_outside": ("set otherwise: {settings}", "anders eingestellt: {settings}"),
    "allowances": ("allowances included", "mit Nahtzugaben"),
    "allowances_none": ("no allowances: cut on the line", "ohne Zugaben: auf der Linie schneiden"),
    "allowances_round": ("allowances included: {width} all round", "mit Nahtzugaben: ringsum {width}"),
    "allowances_each": ("allowances included: {parts}", "mit Nahtzugaben: {parts}"),
    "allowance_none": ("none", "keine"),
    "strip_tube": (
        "{length} long, {width} wide; a tube stitched {stitched} from the edge, {done} wide",
        "{length} lang, {width} breit; ein Schlauch, {stitched} vom Rand genäht, {done} breit",
    ),
    "strip_quartered": (
        "{length} long, {width} wide; folded in four, {done} wide",
        "{length} lang, {width} breit; vierfach gelegt, {done} breit",
    ),
    "strip_flat": ("{length} long, {width} wide", "{length} lang, {width} breit"),
    "place_on_fold": ("place on the fold", "an den Stoffbruch legen"),
    "on_fold": ("on the fold", "Stoffbruch"),
    "fold": ("fold", "Bruch"),
    "turn_over_here": ("turn the pattern over here", "Schnittteil hier wenden"),
    "turn_over": ("turn over", "wenden"),
    "fold_named": ("fold, {name}", "Umbruch, {name}"),
    "lengthen_here": ("lengthen or shorten here", "hier verlängern oder kürzen"),
    "found_edge": ("the cloth's own hem", "der eigene Saum des Stoffs"),
    # a hand-out
    "chart_size": ("size", "Größe"),
    "chart_cm": ("Body measures in cm.", "Körpermaße in cm."),
    "chart_inch": ("Body measures in inches.", "Körpermaße in Zoll."),
    "chart_taken": ("How they are taken", "Wie sie genommen werden"),
    "credits_maker": ("Made by {name}.", "Gemacht von {name}."),
    "credits_licence": (
        "What you may do with it stands in LICENCE.txt.",
        "Was damit erlaubt ist, steht in LICENCE.txt.",
    ),
    "credits_fonts": (
        "The pages hold parts of fonts; their licences stand in FONT-LICENCE.txt.",
        "Die Seiten enthalten Teile von Schriften; deren Lizenzen stehen in FONT-LICENCE.txt.",
    ),
    "credits_cautions": (
        "Irons, blades and needles hurt; cords and ties on children's clothes are regulated. Read the cautions in the "
        "sheet; local rules come first.",
        "Bügeleisen, Klingen und Nadeln verletzen; Kordeln und Bänder an Kinderkleidung sind geregelt. Die Warnungen "
        "in der Nähanleitung lesen; örtliche Vorschriften gehen vor.",
    ),
    **BY_HAND,
}
