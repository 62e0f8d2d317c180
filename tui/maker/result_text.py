"""What comes of the answers, in words: the bars, the steps and heats, what the steel goes to, what does not add up."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from textual.content import Content
from textual.widgets.option_list import Option

from plans.maker import Concern, Proposal
from plans.reader import BarKeys
from plans.shown import counted, show_duration
from plans.text import plain
from plans.times import PlanTimes
from plans.units import Units

_MINUTE = 60.0


def result_text(proposal: Proposal, times: PlanTimes | None, units: Units) -> Content:
    """The figures of a proposal, the most wanted first.

    Args:
        proposal: what is proposed
        times: what it takes; None while that is worked out
        units: in which it is told
    """
    lines = [
        Content.styled(plain(proposal.title), "bold"),
        Content(_takes(proposal, times)),
        *(Content(f"  {line}") for line in _bars(proposal.bars, units)),
        *([Content.styled(line, "$text-muted")] if (line := _losses(proposal, units)) else []),
    ]
    return Content("\n").join(lines)


def _takes(proposal: Proposal, times: PlanTimes | None) -> str:
    heats = sum(
        step.keys.heats for step in proposal.steps if isinstance(step.keys.heats, int) and step.keys.fire is not None
    )
    parts = [counted(len(proposal.steps), "step"), counted(times.heats if times is not None else heats, "heat")]
    if times is not None and times.in_the_fire:
        minutes = _MINUTE * round(times.in_the_fire / _MINUTE)
        parts.append(f"{'at least' if times.unknown else 'about'} {show_duration(minutes)} in the fire")
    return ", ".join(parts)


def _bars(bars: Sequence[BarKeys], units: Units) -> Iterator[str]:
    """What to cut, bars that are alike on one line."""
    for (name, steel, section), alike in groupby(bars, lambda bar: (bar.name, bar.steel, bar.section)):
        lengths = ", ".join(units.length(bar.length) for bar in alike)
        yield f"{plain(name)}: {plain(steel)}, {units.section(section)}, {lengths}"


def _losses(proposal: Proposal, units: Units) -> str:
    if not proposal.stock:
        return ""
    parts = [(loss.kind.value, loss.volume) for loss in proposal.losses]
    named = ", ".join(
        f"{name} {share}" for name, volume in parts if (share := _share(volume / proposal.stock)) != "0 %"
    )
    piece = "" if proposal.finished is None else f"{_share(proposal.finished.volume / proposal.stock)} is the piece; "
    return f"of {units.volume(proposal.stock)} of stock {piece}{named}"


def _share(share: float) -> str:
    return f"{100 * share:.0f} %"


def doubt_rows(concerns: Sequence[Concern], units: Units) -> list[Option]:
    """What does not add up, a row each: what, and below it what would mend it."""
    return [Option(_doubt(one, units), id=f"{number} {one.answer}") for number, one in enumerate(concerns)]


def _doubt(one: Concern, units: Units) -> Content:
    what, mend = plain(units.text(one.what)), plain(units.text(one.mend))
    if one.serious:
        return Content.assemble((" ! ", "bold reverse $error"), (f" {what}; ", "bold"), mend)
    return Content.assemble((" ? ", "bold $warning"), f" {what}; ", (mend, "$text-muted"))
