"""A copy of a plan in the smith's own folder, edited; what lies there already stays as it is."""

from __future__ import annotations

import re
from collections.abc import Mapping
from itertools import count
from pathlib import Path
from typing import Final

from plans.copied import NUMBERED_NAME
from plans.plan import Plan
from plans.shown import counted

_NO_NAME: Final = re.compile(r"[^\w .,()+-]")
"""What a file's name on every system has none of, controls among it."""
_LONGEST: Final = 60
"""Characters that a title has at most."""


def copy_with_heats(plan: Plan, heats: Mapping[int, int], own: Path) -> str:
    """Write a copy of a plan with other heats under a new name, as `write_copy` does.

    Args:
        plan: the plan
        heats: how many each step shall have, by its number from 0; at least one step
        own: the smith's own folder of plans; it is made where it is missing

    Returns:
        a line that says what is in it, and where it lies

    Raises:
        PlanError: the plan is written in a way that this can't be done, or makes no sense with these heats.
        OSError: it can't be written; what was written of it is gone again.
    """
    from plans.editing import with_heats

    text = plan.source.removeprefix("\ufeff")
    for step, wanted in heats.items():
        text = with_heats(text, step, wanted)
    path, new = write_copy(plan, text, own)
    return f"{_said(plan, heats)}: kept {'' if new else 'before, '}in {path}"


def write_copy(plan: Plan, text: str, own: Path) -> tuple[Path, bool]:
    """Write a plan that was edited under a new name: that of the plan with the next number behind it.

    Its comments and its order stay. Its title has the number as well, so that the shelf tells the two apart.

    Args:
        plan: that it was made of
        text: as it is to be, but for its title
        own: the smith's own folder of plans; it is made where it is missing

    Returns:
        where it lies, and whether it is new; False where the same was kept before

    Raises:
        PlanError: the plan is written in a way that its title can't be changed.
        OSError: it can't be written; what was written of it is gone again.
    """
    from plans.editing import with_keys
    from plans.reader import files_at_hand
    from plans.writing import make_folder, sync_folder, write_new

    numbered = NUMBERED_NAME.fullmatch(plan.name)
    name, first = (numbered[1], int(numbered[2]) + 1) if numbered else (plan.name, 2)
    title = plan.title.removesuffix(f", {first - 1}") if numbered else plan.title
    make_folder(own)
    taken = {file.name for file in files_at_hand(own)}
    for number in count(first):
        # A log that came from elsewhere may call its plan anything.
        path = own / f"{_NO_NAME.sub('', Path(name).name) or 'plan'}-{number}.toml"
        titled = f"{title}, {number}"
        copy = text if len(titled) > _LONGEST else with_keys(text, {("title",): titled})
        if path.stem in taken:
            if path.is_file() and path.read_bytes() == copy.encode():
                return path, False
            continue
        try:
            write_new(path, [copy.encode()])
        except FileExistsError:
            continue
        sync_folder(own)
        return path, True
    raise AssertionError("there is always another number")


def _said(plan: Plan, heats: Mapping[int, int]) -> str:
    if len(heats) > 1:
        return f"heats of {len(heats)} steps"
    ((step, wanted),) = heats.items()
    return f"step {step + 1} with {counted(wanted, plan.steps[step].counts)}"
