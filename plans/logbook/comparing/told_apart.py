"""By how much a figure of one sitting must differ from that of another to be told apart from it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Final

from plans.logbook.lines import What
from plans.record import record
from plans.shown import show_money
from plans.units import Units

TOLD_APART: Final = 20.0
"""Temperatures that are nearer are not told apart [K]: IEC 60584-1 lets a class 2 thermocouple be off by 0.75 % of
what it says in degC, so two may differ by 19.5 at 1300 degC; the warm model is no better."""
SHARE: Final = 0.1
"""Times that differ by less than this share of the longer are not told apart; a word is said a moment early or late.
Nor is fuel, whose rate no smith knows better."""


_EXACT: Final = 1e-9
"""Sums that differ by less are the same one."""


@record
class _Bears:
    """What differs by no more than both of these is not told apart."""

    least: float = 0.0
    """So much, in SI."""
    share: float = 0.0
    """So large a share of the greater."""


_BEARS: Final = {
    What.COUNT: _Bears(),
    What.TIME: _Bears(5.0, SHARE),
    What.SHORT_TIME: _Bears(1.0, SHARE),
    What.TEMPERATURE: _Bears(TOLD_APART),
    What.MASS: _Bears(share=SHARE),
    What.GAS: _Bears(share=SHARE),
    # Shown to hundredths: what differs by one of them may be rounding alone.
    What.MONEY: _Bears(0.01, SHARE),
    # What is measured by hand. A caliper on a forged face is off by 0.1 mm either way, a rule on a long piece by a
    # share, a scale by a gram, and who looks at decarb by a fifth: common practice, no source.
    What.LENGTH: _Bears(0.2e-3, 0.02),
    What.WEIGHT: _Bears(2e-3, 0.01),
    What.DEPTH: _Bears(0.05e-3, 0.2),
    # From memory: ISO 6508-2 lets a tester be off by 1.5 HRC, so two may differ by 3.
    What.HARDNESS: _Bears(3.0),
}


def differs(what: What, first: float | str | None, other: float | str | None) -> bool:
    """Whether a figure differs from that of the first sitting by more than can be told; both in SI, None for none."""
    if first is None or other is None:
        # What nobody knew is no difference; a step that was not come to has no heats, and that is one.
        return what is What.COUNT and first != other
    if isinstance(first, str) or isinstance(other, str):
        return first != other
    bears = _BEARS[what]
    if what is What.MONEY:
        first, other = (float(show_money(value)) for value in (first, other))
    return abs(first - other) - max(bears.least, bears.share * max(first, other)) > _EXACT


def from_when_on(first: str, kinds: Iterable[What], units: Units) -> str:
    """From when on figures differ from the first sitting's: those of sittings, and what of these was measured by hand.

    Args:
        first: what that sitting is called
        kinds: all that there is to be seen
        units: the units that are set
    """
    time, short = _BEARS[What.TIME], _BEARS[What.SHORT_TIME]
    said = (
        f"differs from {first} by more than can be told: a count at all; a time by more than {time.least:g} s "
        f"({short.least:g} s of too cold) and by more than {_percent(SHARE)} of the longer; fuel and its cost, as they "
        f"are shown, by more than {_percent(SHARE)}; a temperature by more than {units.difference(TOLD_APART)}, as two "
        "thermocouples may"
    )
    return "; ".join([said, *_by_hand(set(kinds), units)])


def _by_hand(kinds: set[What], units: Units) -> Iterator[str]:
    for what, name, least in (
        (What.LENGTH, "a length measured by hand", units.depth(_BEARS[What.LENGTH].least)),
        (What.WEIGHT, "a weight", units.mass(_BEARS[What.WEIGHT].least)),
        (What.DEPTH, "decarb that was found", units.depth(_BEARS[What.DEPTH].least)),
    ):
        if what in kinds:
            yield f"{name} by more than {least} and by more than {_percent(_BEARS[what].share)}"
    if What.HARDNESS in kinds:
        yield f"a hardness by more than {_BEARS[What.HARDNESS].least:g} HRC, as two testers may"


def _percent(share: float) -> str:
    return f"{share * 100:.0f} %"
