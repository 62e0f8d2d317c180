"""A tick on a step's checklist, as it is typed and as the log keeps it: "3", "item 3", "step 2 item 3 off"."""

from __future__ import annotations

import re
from typing import Final

from plans.record import record
from plans.record_values import MOST_STEPS
from plans.text import clean

_TYPED: Final = re.compile(r"(?:step +([0-9]{1,4}) +)?(?:item +)?([0-9]{1,2})( +off)?", re.IGNORECASE)


@record
class ItemTick:
    """A tick that is set on an item of a checklist, or taken off it."""

    item: int
    """Which item of its step's checklist, from 0."""
    step: int | None = None
    """Number of the step, from 0; None for the one that goes on."""
    on: bool = True
    """Whether it is ticked from now on."""


@record
class Ticked:
    """An item of a checklist that is ticked."""

    step: int
    """Number of its step, from 0."""
    item: int
    """Which item of that step's checklist, from 0."""
    at: float
    """When it was ticked [s]."""


def read_tick(text: str) -> ItemTick:
    """The tick that was typed.

    Raises:
        ValueError: it names no item; the text says what would.
    """
    found = _TYPED.fullmatch(text.strip())
    step = None if found is None or found[1] is None else int(found[1])
    if found is None or int(found[2]) < 1 or not (step is None or 1 <= step <= MOST_STEPS):
        raise ValueError(f'which item is "{clean(text, 30)}"? say: tick 3, tick 3 off, or tick step 2 item 3')
    return ItemTick(int(found[2]) - 1, None if step is None else step - 1, found[3] is None)


def written_tick(tick: ItemTick) -> str:
    """The tick as the log keeps it."""
    step = "" if tick.step is None else f"step {tick.step + 1} "
    return f"{step}item {tick.item + 1}{'' if tick.on else ' off'}"
