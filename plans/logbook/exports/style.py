"""How the page looks: on paper, in the light and in the dark, with nothing but the fonts that are there."""

from __future__ import annotations

LIGHT = {
    "paper": "#fbf8f3",
    "ink": "#2b2622",
    "quiet": "#655b52",
    "rule": "#e3dacf",
    "ember": "#a63a09",
    "heat": "#f7e3d0",
    "cold": "#235f9e",
    "burn": "#b3171d",
    "of-a": "#a63a09",
    "of-b": "#235f9e",
    "of-c": "#2c6a2c",
    "of-d": "#8a2a86",
    "of-e": "#5d5650",
}
"""Colours on a light screen, by name; each is legible on its paper, and on `heat` (WCAG 2.2, 4.5 to 1)."""
DARK = {
    "paper": "#181513",
    "ink": "#ece5db",
    "quiet": "#a99d91",
    "rule": "#38312b",
    "ember": "#ff9a52",
    "heat": "#3a2619",
    "cold": "#84b9f0",
    "burn": "#ff8379",
    "of-a": "#ff9a52",
    "of-b": "#84b9f0",
    "of-c": "#86cf82",
    "of-d": "#ec93e0",
    "of-e": "#b9aea2",
}
"""Colours on a dark screen, by the same names."""
PRINT = LIGHT | {"paper": "#ffffff", "ink": "#000000", "quiet": "#4d4741", "rule": "#d5ccc2"}
"""Colours on paper, by the same names."""


def _set(colours: dict[str, str]) -> str:
    return "".join(f"--{name}:{value};" for name, value in colours.items())


STYLE = (
    f":root{{color-scheme:light dark;{_set(LIGHT)}}}"
    f"@media screen and (prefers-color-scheme:dark){{:root{{{_set(DARK)}}}}}"
    f"@media print{{:root{{color-scheme:light;{_set(PRINT)}}}}}"
    + """
*{box-sizing:border-box}
html{background:var(--paper);color:var(--ink);-webkit-text-size-adjust:100%}
body{margin:0 auto;max-width:66rem;padding:3.5rem 2rem 5rem;overflow-wrap:anywhere;
font:1.05rem/1.6 Charter,"Bitstream Charter","Iowan Old Style",Palatino,Georgia,serif}
h1{font-size:2.4rem;line-height:1.15;font-weight:600;letter-spacing:-.01em;margin:0 0 .6rem;text-wrap:balance}
h2{font-size:1.3rem;font-weight:600;margin:3.2rem 0 .9rem;padding-top:1rem;border-top:1px solid var(--rule)}
h3{font-size:1.05rem;font-weight:600;margin:2rem 0 .2rem}
p{margin:.3rem 0}
.quiet,.facts dt,figcaption,footer,th,.about{color:var(--quiet)}
.state{font-style:italic;color:var(--ember)}
.facts{display:flex;flex-wrap:wrap;gap:.3rem 2.6rem;margin:2rem 0 0}
.facts dt,figcaption,table,svg text,footer,.about{font-family:system-ui,"Segoe UI",Roboto,"Noto Sans",sans-serif}
.facts dt,figcaption,footer,.about{font-size:.82rem}
.facts dd{margin:0;font-size:1.5rem;font-variant-numeric:tabular-nums}
figure{margin:0}
.strips svg{display:block;height:auto;margin:0 0 1.4rem}
figcaption{display:flex;flex-wrap:wrap;gap:.2rem 1.6rem}
figcaption span{display:inline-flex;align-items:center;gap:.5em;white-space:nowrap}
.wide{overflow-x:auto}
table{border-collapse:collapse;font-size:.86rem;font-variant-numeric:tabular-nums;margin:.4rem 0 0}
th,td{text-align:right;padding:.22rem 0 .22rem 1.2rem;white-space:nowrap;font-weight:400}
th{overflow-wrap:normal}
thead th{font-weight:500;vertical-align:bottom}
tbody th,tbody td{border-top:1px solid var(--rule)}
th:first-child,td:first-child{padding-left:0}
th.text,td.text{text-align:left}
td.text.free{white-space:pre-wrap;overflow-wrap:anywhere;font-family:Charter,Georgia,serif;font-size:1rem}
th:not(.text),td:not(.text){min-width:4em}
tbody th:first-child,tbody td:first-child{min-width:3.2em}
tr{break-inside:avoid}
.pair{display:flex;flex-wrap:wrap;align-items:flex-start;gap:0 2.4rem}
.pair>.wide{min-width:0;max-width:100%}
td i{display:inline-block;width:.62em;height:.62em;border-radius:50%;margin-right:.5em;outline:1px solid var(--rule)}
.bare h3{margin-top:1.1rem;font-weight:400}.bare .about{margin-top:0}
.alarmed{color:var(--burn);font-weight:600}
pre{font:.78rem/1.55 ui-monospace,"SF Mono",Menlo,Consolas,"DejaVu Sans Mono",monospace;
white-space:pre-wrap;overflow-wrap:anywhere;tab-size:4;margin:.6rem 0 0}
summary{cursor:pointer;color:var(--quiet);font:.82rem system-ui,"Segoe UI",Roboto,"Noto Sans",sans-serif}
footer{margin-top:3.5rem;padding-top:1rem;border-top:1px solid var(--rule)}
svg text{font-size:12px;fill:var(--quiet);font-variant-numeric:tabular-nums}
svg path{fill:none}
svg .heat{fill:var(--heat)}
svg .line,svg .base{stroke:var(--rule)}
svg .base,svg .tick,svg path.step{stroke:var(--quiet);stroke-width:.8}
svg text.scale{text-anchor:end}
svg text.clock,svg text.tally,svg text.note{text-anchor:middle}
svg text.tally{fill:var(--ember);font-weight:600}
svg text.step{fill:var(--ink)}
svg .curve{stroke-linejoin:round;stroke-linecap:round}
svg .measured{stroke:var(--ember);stroke-width:2}
svg .modelled{stroke:var(--ember);stroke-width:1.8;stroke-dasharray:5 4}
svg .middle{stroke:var(--quiet);stroke-width:1;stroke-dasharray:2 3}
svg .fire{stroke:var(--quiet);stroke-width:1.2}
svg path.limit{stroke:var(--quiet)}
svg path.cold{stroke:var(--cold);stroke-dasharray:1.5 3}
svg path.burn{stroke:var(--burn);stroke-dasharray:8 3}
svg path.heat-to,svg path.oven,svg path.cool-to{stroke-dasharray:3 3}
svg text.limit{stroke:var(--paper);stroke-width:2.5;stroke-opacity:.8;paint-order:stroke}
svg text.cold{fill:var(--cold)}
svg text.burn{fill:var(--burn)}
svg .prompt{fill:var(--paper);stroke:var(--ink);stroke-width:1.4}
svg .alarm{stroke:var(--paper);stroke-width:1.2}
svg .alarm.cold{fill:var(--cold);stroke-dasharray:none}
svg .alarm.burn{fill:var(--burn);stroke-dasharray:none}
svg .probe{stroke:var(--ink);stroke-width:2}
svg circle.note{fill:var(--paper);stroke:var(--quiet)}
svg text.note{fill:var(--ink)}
svg .finding{stroke:var(--ember);stroke-width:1}
svg path.finding{fill:var(--paper)}
svg text.finding{stroke:none;fill:var(--ink);text-anchor:middle}
svg g:target path.finding{fill:var(--ember);stroke-width:2}
svg g:target text.finding{fill:var(--paper)}
.findings{padding-left:1.6em}.findings a{color:inherit;text-decoration-color:var(--ember)}
.findings span{white-space:nowrap}
svg .modelled-part{stroke-dasharray:5 4}
svg path.of-a{stroke:var(--of-a);stroke-width:2.2}
svg path.of-b{stroke:var(--of-b);stroke-width:1.6}
svg path.of-c{stroke:var(--of-c);stroke-width:1.6}
svg path.of-d{stroke:var(--of-d);stroke-width:1.6}
svg path.of-e{stroke:var(--of-e);stroke-width:1.6}
.of-a{color:var(--of-a)}svg text.of-a{fill:var(--of-a)}
.of-b{color:var(--of-b)}svg text.of-b{fill:var(--of-b)}
.of-c{color:var(--of-c)}svg text.of-c{fill:var(--of-c)}
.of-d{color:var(--of-d)}svg text.of-d{fill:var(--of-d)}
.of-e{color:var(--of-e)}svg text.of-e{fill:var(--of-e)}
svg text.on-it{text-anchor:middle;font-weight:700;stroke:var(--paper);stroke-width:3.5;paint-order:stroke}
.figures th:not(.text),.figures td:not(.text){padding-right:.85em}.differs{white-space:nowrap;margin-right:-.85em}
.each{display:grid;grid-template-columns:repeat(auto-fit,minmax(min(17rem,100%),1fr));gap:0 2.4rem}
.each ul{margin:.1rem 0 .6rem;padding-left:1.2em}
.figures{display:grid;grid-template-columns:repeat(auto-fit,minmax(min(26rem,100%),1fr));gap:0 2.4rem}
.figures>div{min-width:0}.figures th:not(.text),.figures td:not(.text){min-width:0;padding-left:1rem}
.overlays{display:grid;grid-template-columns:repeat(auto-fill,minmax(min(24rem,100%),1fr));gap:1.4rem 2rem}
.overlays svg{display:block;width:100%;height:auto}.overlays figure{break-inside:avoid}
.photographs figure{display:inline-block;vertical-align:top;max-width:100%;margin:0 1.4rem 1.4rem 0;break-inside:avoid}
.photographs img{display:block;max-width:100%;max-height:34rem;margin:0 0 .4rem}
.photographs figcaption{display:block;max-width:34rem}
.photographs .named{display:block;margin-bottom:.4rem}
svg g{scroll-margin-top:6rem}
@media (min-width:62rem){
.long .wide{overflow:visible;columns:2;column-gap:3rem}.long th,.long td.text:last-child{white-space:normal}
.pair{flex-wrap:nowrap}.pair>.wide+.wide{flex:1 0 20rem}.pair td.text,.pair thead th{white-space:normal}
.pair th+*,.pair td+*{padding-left:.9rem}.pair th:not(.text),.pair td:not(.text){min-width:0}
}
@media (max-width:46rem){body{padding:2rem 1.1rem 3rem}h1{font-size:1.9rem}.strips{min-width:55rem}
th,td{padding-left:.9rem}.pair td.text{white-space:normal}}
@media print{
/* No size: each prints on what lies in the printer, A4 or Letter, and all of it fits the width of both. */
@page{margin:14mm 12mm}
html{-webkit-print-color-adjust:exact;print-color-adjust:exact}
body{max-width:none;padding:0;font-size:9.5pt;line-height:1.4}
h1{font-size:20pt}h2{margin:5mm 0 1.5mm;padding-top:2mm;font-size:12.5pt}
h3,.bare h3{font-size:9.5pt;margin:2.5mm 0 0}
h2,h3,.about{break-after:avoid}
.facts{margin-top:3mm;gap:1mm 7mm}.facts dd{font-size:13pt;line-height:1.2}
.facts dt,figcaption,footer,.about,summary{font-size:8pt}
table{font-size:8pt;line-height:1.25;margin-top:.5mm}
th,td{padding:.5mm 0 .5mm 3mm}
th:not(.text),td:not(.text){min-width:0}
td.text.free{font-size:8.5pt}
thead{break-after:avoid}
.wide{overflow:visible}.strips{min-width:0}
.strips svg{margin-bottom:2mm}
.strips svg,.step-heats{break-inside:avoid}
.pair{flex-wrap:nowrap;gap:0 7mm}.pair>.wide+.wide{flex:1 0 76mm}.pair td.text,.pair th{white-space:normal}
.pair th+*,.pair td+*{padding-left:2.2mm}.pair tbody th{white-space:nowrap}
.long .wide{columns:2;column-gap:6mm}.long th+*,.long td+*{padding-left:2mm}
.long th,.long td.text:last-child{white-space:normal}
.figures{display:flex;flex-wrap:wrap;gap:0 8mm}.figures>div{min-width:56mm}
.overlays{grid-template-columns:1fr 1fr;gap:0 6mm}.overlays figure{margin-bottom:3mm}
ul,ol{margin:1mm 0}
.photographs img{max-height:110mm}
pre{font-size:7pt;line-height:1.3;columns:2;column-gap:6mm}
details:not([open]) summary{list-style:none}
footer{margin-top:5mm;padding-top:2mm}
}
"""
)
"""The style sheet of the page."""
