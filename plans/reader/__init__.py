'''Plan files: TOML in, a `Plan` out, or a `PlanError` that names file, line, key and what would be right.

A plan file is meant to be read and written by hand. Quantities are text with a unit, metric or inch, as
`plans.quantities` reads them ("1250 degC", "25 x 10 mm", "1 1/4 in", "4 min"). Texts of paragraphs (`about`,
`instruction`) may be broken into lines anywhere; an empty line begins a new paragraph.

```toml
heatbook = 1                      # version of the format
title = "Drawknife with a laid steel edge"
about = """What comes out."""     # optional

[[bar]]                           # stock, any number; all four keys
name = "edge"
steel = "1084"
section = "25 x 5 mm"             # or "round 1 in", "square 20 mm"
length = "220 mm"

[[step]]
title = "Weld the whole length"
kind = "weld"                     # weld draw forge normalize anneal harden temper etch bench
# all that follows is optional, as far as the phases don't need it
instruction = """Brush the scale off."""
phases = ["fire", "soak", "strike"]  # where they are not the usual ones of the kind (plans.plan.USUAL_PHASES)
fire = "1300 degC"                # or a list, one for each heat; needed by a fire phase
heat_to = "1260 degC"             # or a list; skin temperature that ends the fire phase; without it 30 K below the fire
keep_above = "1100 degC"          # cold limit, below heat_to; needed by a strike phase
burn_above = "1320 degC"          # burn limit, above heat_to
soak = "auto"                     # the default: until the warm model has the middle even; or a time
soak_at_most = "5 min"            # a longer soak is called out
even_within = "15 K"              # what counts as even
heats = 2                         # or "auto": from section to reach, 20 % of the area a heat; without it 1, or as many
                                  # as a list has
section = "31 x 18 mm"            # when the step begins; without it what the step before left, or the only bar
length = "153 mm"
reach = "32 x 8 mm"               # section and length to stop at
reach_length = "313 mm"
thin = "20 x 4 mm"                # the part that goes cold first: its hammer time is counted too
thin_name = "edge"
layers = 28                       # in the work's thickness when the step begins: the review says how even they became
turn_every = "6 s"                # a cadence for even work round the bar, while it is struck
checklist = ["Seam closed"]
cautions = ["..."]                # besides those of the kind

[step.air]                        # below a temperature, after a time, or both; with neither the smith's word ends it
until = "480 degC"
for = "10 min"

[step.quench]
medium = "oil at 55 degC"
for = "10 s"
within = "3 s"                    # optional: longest time from the fire

[step.oven]
at = "200 degC"
for = "2 h"
within = "2 h"                    # optional: longest time from the end of the step before

[step.dip]
medium = "ferric chloride, 1 part to 4 of water"
for = "12 min"
```

Two kinds of fault are told apart (`plans.errors.FaultKind`): those of shape, which plan.schema.json finds as well, and
those of value, which take arithmetic or sense. A fire hotter than `burn_above` is none: some forges are run like that,
with the work taken out in time; the step gets a caution for it.
'''

from __future__ import annotations

from plans.reader.plan_files import SHELF, ShelfPlan, find_plan, read_plan_file, shelf_plans
from plans.reader.plan_text import read_plan

__all__ = ["SHELF", "ShelfPlan", "find_plan", "read_plan", "read_plan_file", "shelf_plans"]
