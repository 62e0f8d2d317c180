"""A caution, said once: as what it warns of begins, while there is still time to heed it."""

from __future__ import annotations

from rich.cells import cell_len

from plans.prose import in_units
from plans.sitting import Sitting, for_step
from plans.units import Units

_STANDS = 12.0
"""How long each one stands [s]."""


def caution_line(sitting: Sitting, at: float, units: Units) -> str:
    """The caution that stands at `at` [s]; empty where all that this phase calls for have been shown.

    Those of the trade are told by name, the plan's own whole; the sheet of the step has every one whole.
    """
    state = sitting.state
    if not state.begins or state.finished:
        return ""
    before = {begun.step for begun in state.begins[:-1] if begun.phase is state.phase}
    told = {caution for step in before for caution in for_step(sitting.plan.steps[step])}
    step = sitting.current_step
    begins = [phase.kind for phase in step.phases if phase.kind is state.phase]
    now = [one for one in for_step(step) if one not in told and (one.begins or step.phases[0].kind) in begins]
    usual = ", ".join(one.about for one in now if one.kinds)
    lines = [line for line in (*(one.text for one in now if not one.kinds), usual) if line]
    turn = int((at - state.since) // _STANDS)
    return f"mind: {in_units(lines[turn], units)}" if 0 <= turn < len(lines) else ""


def shortened(caution: str, room: int, key: str) -> str:
    """A caution where it is to fit into `room` cells: whole, or its beginning and the key that shows all of it.

    It ends with a whole word, and with no figure, which would miss its unit or what it is about. Empty where there is
    no room for a word of it.
    """
    if cell_len(caution) <= room:
        return caution
    rest = f"…; {key} reads it"
    words = caution.split()
    while words and (any(map(str.isdigit, words[-1])) or cell_len(" ".join(words).rstrip(",;:.") + rest) > room):
        words.pop()
    return " ".join(words).rstrip(",;:.") + rest if len(words) > 1 else ""
