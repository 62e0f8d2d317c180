"""A plan of one step, for what is measured in it and after it: a bar that is drawn to half of its section."""

DRAW = """
heatbook = 1
title = "Draw a bar"

[[step]]
title = "Draw it out"
kind = "draw"
fire = "1160 degC"
heat_to = "1130 degC"
keep_above = "900 degC"
soak = "30 s"
heats = 2
section = "40 x 12 mm"
length = "200 mm"
reach = "40 x 6 mm"
"""
