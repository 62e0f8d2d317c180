"""A plan with a step at the bench between two in the fire, which changes nothing of the section."""

from __future__ import annotations

from typing import Final

BENCH_BETWEEN: Final = """
heatbook = 1
title = "Drawn, looked over, straightened"

[[step]]
title = "Draw it out"
kind = "draw"
fire = "1160 degC"
heat_to = "1130 degC"
keep_above = "900 degC"
heats = 1
section = "40 x 12 mm"
length = "200 mm"
reach = "40 x 6 mm"
reach_length = "392 mm"

[[step]]
title = "Look it over"
kind = "bench"

[[step]]
title = "Straighten it"
kind = "forge"
fire = "1000 degC"
heat_to = "950 degC"
keep_above = "800 degC"
section = "40 x 6 mm"
length = "392 mm"
"""
