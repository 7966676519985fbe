"""How the HTML sheet looks: black on white, for a narrow screen first and for A4 paper."""

from garmentc.output.pictures.svg import STYLE as PICTURE_STYLE

STYLE = (
    PICTURE_STYLE
    + """\
:root { color-scheme: light; }
* { box-sizing: border-box; }
body { margin: 0 auto; padding: 1rem; max-width: 46rem; color: #000; background: #fff;
  font: 1rem/1.5 system-ui, sans-serif; overflow-wrap: anywhere; }
h1 { font-size: 1.6rem; line-height: 1.2; margin: 0.5rem 0; }
h2 { font-size: 1.3rem; margin: 2rem 0 0.5rem; padding-bottom: 0.2rem; border-bottom: 2px solid #000; }
h3 { font-size: 1.05rem; margin: 1.4rem 0 0.4rem; }
p { margin: 0.4rem 0; }
ul, ol { margin: 0.4rem 0; padding-left: 1.4rem; }
li { margin: 0.25rem 0; }
nav ul { padding: 0; display: flex; flex-wrap: wrap; gap: 0.2rem 1rem; list-style: none; }
a { color: #00409a; }
a:focus-visible, input:focus-visible { outline: 3px solid #00409a; outline-offset: 2px; }
table { width: 100%; margin: 0.8rem 0; border-collapse: collapse; font-size: 0.95rem; line-height: 1.35; }
caption { text-align: left; font-weight: bold; padding-bottom: 0.3rem; }
th, td { padding: 0.3rem 0.6rem 0.3rem 0; border-bottom: 1px solid #767676; text-align: left; vertical-align: top;
  font-weight: normal; overflow-wrap: break-word; hyphens: auto; }
thead th { border-bottom: 2px solid #000; font-weight: bold; }
.ticks { list-style: none; padding: 0; }
.ticks label { display: flex; gap: 0.6rem; padding: 0.2rem 0; }
.ticks input { flex: none; width: 1.3rem; height: 1.3rem; margin: 0.1rem 0 0; accent-color: #000; }
.after { margin-left: 1.9rem; padding-left: 0.6rem; border-left: 4px solid #000; }
.caution { margin: 0.8rem 0; padding: 0.2rem 0.8rem 0.5rem; border: 2px solid #000; }
.caution h3 { margin-top: 0.5rem; }
.sources { font-size: 0.875rem; color: #333; }
.sketch { margin: 0.8rem 0; }
.sketch figcaption { font-size: 0.95rem; font-weight: bold; line-height: 1.35; }
.sketch svg { display: block; max-width: 100%; height: auto; margin: 0.4rem 0; }
.sketch polyline { fill: none; stroke: #000; stroke-linejoin: round; vector-effect: non-scaling-stroke; }
.sketch .cut { stroke-width: 2.2px; }
.sketch .stitch { stroke-width: 1.1px; stroke-dasharray: 5 3; }
.sketch .leader { stroke-width: 0.7px; }
.sketch .fold { stroke-width: 1.1px; stroke-dasharray: 12 3 2 3; }
.pics { display: flex; flex-wrap: wrap; gap: 0.6rem 1.2rem; align-items: flex-end; margin: 0.4rem 0; }
.pics figure { margin: 0; max-width: 21rem; break-inside: avoid; }
.pics figcaption { font-size: 0.875rem; line-height: 1.3; }
.pics svg { display: block; max-width: 100%; height: auto; }
.narrow { width: auto; }
.narrow th, .narrow td { padding: 0.1rem 1.2rem 0.1rem 0; }
h2, h3 { clear: both; }
@media print, (min-width: 36rem) { .beside { float: right; margin: 0 0 0.4rem 1rem; } }
.blank { display: inline-block; width: 5rem; border-bottom: 1px solid #767676; }
.note { height: 2.2rem; border-bottom: 1px solid #767676; }
@page { size: A4; margin: 15mm; }
@media print {
  body { max-width: none; padding: 0; font-size: 10.5pt; line-height: 1.4; }
  nav { display: none; }
  h1, h2, h3, caption, thead { break-after: avoid; }
  p:has(+ .sketch, + ul, + ol, + table, + .notes, + p + .sketch) { break-after: avoid; }
  h2 { margin-top: 1.4rem; }
  h1, h2, h3, table, li, .caution, .step, .sketch, .notes { break-inside: avoid; }
  thead { display: table-header-group; }
  p { orphans: 3; widows: 3; }
  .ticks input { appearance: none; width: 4mm; height: 4mm; border: 1px solid #000; }
  .ticks input:checked { background: #000; print-color-adjust: exact; }
}
"""
)
