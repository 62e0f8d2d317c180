"""Whether a plan keeps its steel: what it says of sections and lengths, held against constant volume.

Steel is never made at the forge, so a step that ends with more of it than it began with, or begins with more than the
bars hold, can't be right. It is lost, though: to scale in every heat, and where ends are trimmed.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, Final

from plans.errors import FaultKind
from plans.plan import Plan, Step, StepKind
from plans.shapes import Section
from plans.stock import USUAL_SCALE
from plans.toml import TomlFaults
from plans.units import Units, both

ROUNDING: Final = 0.05
"""Steel may seem to grow by this share: half a millimetre in each side of a bar of 20 x 20 mm comes to that."""
TRIMMED: Final = 0.10
"""Share of the steel that may go besides, with ends and corners that are trimmed; common practice, no source."""


def check_volume(plan: Plan, written: list[dict[str, Any]], faults: TomlFaults) -> None:
    """Note steps whose steel comes from nowhere, or is gone, and thin parts that are longer than the work.

    Args:
        plan: that was read
        written: its steps as they stand in the file, to tell what a step says itself from what it takes over
        faults: where it is noted
    """
    stock = sum(bar.section.area * bar.length for bar in plan.bars) if plan.bars else None
    whole = {(bar.section, bar.length) for bar in plan.bars}
    before: Step | None = None
    in_doubt = False
    for index, (step, keys) in enumerate(zip(plan.steps, written, strict=True)):
        of_its_own = "section" in keys or "length" in keys
        if of_its_own:
            in_doubt = False
            # a step that begins with a bar as it is bought does not go on with what the step before left
            goes_on = (step.section, step.length) not in whole
            for kind, what, hint in _begins(step, stock, before if goes_on else None):
                faults.note(("step", index, "length"), what, hint, kind)
                in_doubt = True
        # What follows from a length that is wrong already tells nothing more.
        if not in_doubt:
            for kind, what, hint in _ends(step, stock):
                faults.note(("step", index, "reach_length"), what, hint, kind)
                in_doubt = True
            for what, hint in _thin(step):
                faults.note(("step", index, "thin_length"), what, hint, FaultKind.WARNING)
        before = step if step.targets else before


def _begins(step: Step, stock: float | None, before: Step | None) -> Iterator[tuple[FaultKind, str, str]]:
    """What is odd in the length that a step says it begins with."""
    volume = _volume(step.section, step.length)
    if volume is None or step.length is None or step.section is None:
        return
    left = before.reach_length if before is not None and before.reach == step.section else None
    if stock is not None and volume > stock * (1 + ROUNDING):
        times = f"{volume / stock:.2g} times as much steel as the bars hold"
        what = f"is {_length(step.length)}, and that of {_section(step.section)} is {times}"
        hint = "make it shorter; the length of a bar is that of all its pieces together"
        yield FaultKind.WARNING, what, hint
    elif left is not None and step.length > left * (1 + ROUNDING):
        what = f"is {_length(step.length)}, where the step before left {_length(left)} of this section"
        yield FaultKind.NOTE, what, f"write up to {_length(left)}, unless this is another piece or more of it"


def _ends(step: Step, stock: float | None) -> Iterator[tuple[FaultKind, str, str]]:
    """What is odd in the length that a step is to end with."""
    begins, ends = _volume(step.section, step.length), _volume(step.reach, step.reach_length)
    if begins is None or ends is None or step.reach is None or step.reach_length is None:
        return
    assert step.section is not None
    assert step.length is not None
    full = begins / step.reach.area
    from_to = f"{_section(step.section)}, {_length(step.length)} long, worked to {_section(step.reach)}"
    _, least_left, most_left = USUAL_SCALE.left(step.heats)
    least, most = full * least_left, full * most_left
    if ends > begins * (1 + ROUNDING):
        # A weld may join what the step did not begin with, but no more of it than there is.
        welded = step.kind is StepKind.WELD and (stock is None or ends <= stock * (1 + ROUNDING))
        what = f"is {_length(step.reach_length)}, but {from_to} gives {_length(full)} at most"
        more = ", or section and length of all the pieces together" if welded else ""
        hint = f"write {_length(least)} to {_length(most)}, as scale takes 1 to 3 % a heat{more}"
        yield (FaultKind.NOTE if welded else FaultKind.WARNING), what, hint
    elif ends < begins * least_left * (1 - TRIMMED):
        gone = f"{100 * (1 - ends / begins):.0f} % of the steel is gone"
        what = f"is {_length(step.reach_length)}, where {from_to} gives {_length(full)}: {gone}"
        hint = f"write {_length(least)} to {_length(most)}, as scale takes 1 to 3 % a heat, unless a part is cut off"
        yield FaultKind.NOTE, what, hint


def _thin(step: Step) -> Iterator[tuple[str, str]]:
    """What can't be right in the length of the thin part."""
    if step.thin_length is None or step.length is None:
        return
    reach_length = step.reach_length
    if reach_length is None and step.reach is not None and step.section is not None:
        reach_length = step.length * step.section.area / step.reach.area
    longest = max(step.length, reach_length or 0.0)
    if step.thin_length > longest * (1 + ROUNDING):
        yield (
            f"is {_length(step.thin_length)}, longer than the work, {_length(longest)}",
            "make it shorter: it is where the work tapers",
        )


def _volume(section: Section | None, length: float | None) -> float | None:
    """Volume of a bar [m3]; None where a part of it is not known."""
    return None if section is None or length is None else section.area * length


def _length(metres: float) -> str:
    return both(lambda units: units.length(metres))


def _section(section: Section) -> str:
    return Units.METRIC.section(section)
