"""Adding, taking out, moving and repeating the steps and bars of a plan, each with all that is written of it.

As in plans/editing/changes.py each function goes from text to text, and refuses what the reader refuses.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Final

from plans.editing.changes import checked
from plans.editing.order import Part, copied, cut, inserted, shifted
from plans.editing.setting import FILE, parsed, with_values
from plans.reader import AUTO, read_plan
from plans.units import Units

if TYPE_CHECKING:
    from _typeshed import DataclassInstance

_AGAIN: Final = ", again"


def added(
    text: str,
    part: Part,
    at: int,
    keys: DataclassInstance,
    units: Units,
    why: Mapping[str, str] | None = None,
) -> str:
    """The plan with one step or bar more.

    Args:
        text: of the plan
        part: what is added
        at: the number that it shall have, from 0 to how many there are
        keys: what it holds: a `StepKeys` or `BarKeys`
        units: in which quantities are written
        why: comments by the attribute, as of `DraftTable`

    Raises:
        PlanError: the plan is none then, or is written in a way that this can't be done; it holds every fault.
    """
    return checked(inserted(text, part, at, keys, units, why))


def removed(text: str, part: Part, index: int) -> str:
    """The plan without a step or bar, by its number from 0.

    The section that a step says it begins with goes to the next one in the fire, where that says none of its own.

    Raises:
        PlanError: the plan is none then, or is written in a way that this can't be done; it holds every fault.
    """
    rest = cut(text, part, index)
    if part == "step":
        begins = parsed(text).values["step"][index]
        heir = _heir(text, index) if "section" in begins else None
        if heir is not None:
            keys = [key for key in ("section", "length") if key in begins]
            rest = with_values(rest, {("step", heir - 1, key): begins[key] for key in keys})
    return checked(rest)


def moved(text: str, part: Part, index: int, to: int) -> str:
    """The plan with a step or bar at another place.

    Args:
        text: of the plan
        part: what is moved
        index: its number, from 0
        to: the number that it shall have then, from 0

    Raises:
        PlanError: the plan is none then, or is written in a way that this can't be done; it holds every fault.
    """
    return checked(shifted(text, part, index, to))


def repeated(text: str, part: Part, index: int) -> str:
    """The plan with a step or bar once more, right below: its title or name then says "again".

    Raises:
        PlanError: the plan is none then, or is written in a way that this can't be done; it holds every fault.
    """
    copy = copied(text, part, index, _AGAIN)
    written = parsed(text).values[part][index]
    if written.get("heats") == AUTO and "section" not in written:
        # It begins with the section that it ends with: its heats can't be told from that any more.
        copy = with_values(copy, {(part, index + 1, "heats"): read_plan(text, "", FILE).steps[index].heats})
    return checked(copy)


def _heir(text: str, index: int) -> int | None:
    """The number of the step that takes over what a step leaves in the fire; None where there is none."""
    steps = parsed(text).values["step"]
    plan = read_plan(text, "", FILE)
    for number in range(index + 1, len(steps)):
        if "section" in steps[number]:
            return None
        if plan.steps[number].targets:
            return number
    return None
