"""Between what a time of a step lies, by what is not known of fire, air, contact and section.

Each range takes some ten courses more than the time itself: it is asked for one at a time, where somebody looks at it.
"""

from __future__ import annotations

from plans.exposing import exposed
from plans.plan import Step
from plans.shop import Shop
from plans.times.of_a_heat import struck_pieces
from plans.warmth import Outlook, Part, Span


def hammer_span(step: Step, heat: int, shop: Shop) -> Span | None:
    """Hammer time of a heat until the first is cold, the work or its thin part [s]; None where nothing is struck.

    Args:
        step: the step
        heat: number of the heat, from 1
        shop: the smith's own figures
    """
    cold = step.keep_above
    first: tuple[float, Outlook, Part] | None = None
    for model, lying, parts in struck_pieces(step, heat):
        assert cold is not None, "else nothing is struck"
        outlook = Outlook(model, exposed(lying, shop))
        for part in parts:
            likely = outlook.likely_until(part, cold, 0.0)
            if likely is not None and (first is None or likely < first[0]):
                first = likely, outlook, part
    return None if first is None or cold is None else first[1].time_until(first[2], cold, 0.0)
