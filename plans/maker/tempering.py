"""Where and how long to temper a piece: by the card of the steel of its edge, or by the hardness that is wanted."""

from __future__ import annotations

from enum import StrEnum
from typing import Final

from plans.maker.steels import PieceSteel, Steels, why_advice, within
from plans.maker.why import Chosen, Concern, Why, asked, practice
from plans.reckoned import Reckoned
from plans.record import record
from plans.steel import Advice, SteelError, tempered_hardness
from plans.units import Units, kelvin

HOLD: Final = 7200.0
"""How long each hold of a temper lasts [s]."""
HOLDS: Final = 2
"""How often it is held."""
EDGE: Final = (kelvin(175), kelvin(230))
"""The range for an edge of steel that isn't known [K]."""
PLAIN: Final = 0.6
"""With more chromium, molybdenum, tungsten and vanadium the hardness of a temper is not known here [mass %]."""
SLACK: Final = 30.0
"""So far over what its card has a steel is tempered where it is struck hard: a temperature difference [K]. Common
practice, no source."""
SOFT_BY: Final = 100.0
"""So far over what its card has for it a temper leaves no edge: a temperature difference [K]. A guess."""
_COLDEST, _HOTTEST = kelvin(150), kelvin(310)


class Use(StrEnum):
    """What an edge is for, as far as the temper hangs on it."""

    KNIFE = "knife"
    """Knives and plane irons."""
    STRUCK = "struck"
    """Choppers, axes and chisels, which are struck."""


@record
class Tempering:
    """The holds of a temper."""

    at: Chosen[float]
    """Temperature of the oven [K]."""
    seconds: Chosen[float]
    """How long each hold lasts [s]."""
    holds: Chosen[int]
    """How often it is held, cooled to hand heat between."""
    within: Chosen[float]
    """Longest time from the quench into the oven [s]."""


_SHARE: Final = {Use.KNIFE: 0.45, Use.STRUCK: 0.9}


def tempering(
    steels: Steels, use: Use = Use.KNIFE, wanted: float | None = None
) -> tuple[Tempering | None, tuple[Concern, ...]]:
    """How to temper a piece; none where no steel of it hardens.

    Args:
        steels: of the piece; the one of its edge with most carbon decides
        use: what the edge is for
        wanted: a temperature that the smith asks for [K]; None for what suits
    """
    hard = steels.hard
    if hard is None:
        return None, ()
    if wanted is not None:
        return _holds(Chosen(wanted, asked())), (*_against(hard, wanted),)
    advice = _advice(hard)
    if advice is None or advice.low is None or advice.high is None:
        return _holds(Chosen(within(*EDGE, _SHARE[use]), practice("Light to dark straw, as for most edges."))), ()
    high = min(advice.high, EDGE[1]) if advice.low < EDGE[1] else advice.high
    at = within(advice.low, high, _SHARE[use])

    def said(units: Units) -> str:
        ends = f"{units.degrees(advice.low)} to {units.temperature(advice.high)}"
        ends = units.temperature(advice.low) if advice.low == advice.high else ends
        return f"{hard.name}: {ends} by its card; {_FOR[use]}. {units.text(why.said)}"

    why = why_advice(advice)
    return _holds(Chosen(at, Why(why.basis, said, why.source))), ()


def temper_for(one: PieceSteel, hardness: float) -> Chosen[float]:
    """The temper of `HOLDS` holds of `HOLD` that leaves a hardness [K].

    Args:
        one: a plain carbon steel
        hardness: that is wanted [HRC]

    Raises:
        SteelError: the steel is not plain or not known, or no temper that was measured leaves this hardness; the text
            says what there is.
    """
    holds = one.holds
    if one.grade is None or holds.chromium + holds.molybdenum + holds.tungsten + holds.vanadium > PLAIN:
        raise SteelError(f"hardness after a temper is known for plain carbon steel only, and {one.name} is none")
    low, high = _COLDEST, _last(holds.carbon)
    hardest, softest = _after(holds.carbon, low).value, _after(holds.carbon, high).value
    if not softest <= hardness <= hardest:
        raise SteelError(
            f"{one.name} was measured to have between {softest:.0f} and {hardest:.0f} HRC after a temper, "
            f"not {hardness:g}: give a hardness between"
        )
    while high - low > 0.5:
        middle = (low + high) / 2
        low, high = (middle, high) if _after(holds.carbon, middle).value > hardness else (low, middle)
    said = f"For {hardness:g} HRC of {one.name}, {holds.carbon:.2f} % carbon, hardened through; right to 2.5 HRC."
    source = _after(holds.carbon, low).source
    return Chosen(within(low - 5, low + 5, 0.5), Why("modelled", said, source))


def _after(carbon: float, at: float) -> Reckoned:
    return tempered_hardness(carbon, [(at, HOLD)] * HOLDS)


def _last(carbon: float) -> float:
    """The hottest temper whose hardness was measured, to 2 K [K]."""
    at = _HOTTEST
    while at > _COLDEST:
        try:
            _after(carbon, at)
        except SteelError:
            at -= 2.0
        else:
            break
    return at


_FOR: Final = {
    Use.KNIFE: "near the middle, for a knife",
    Use.STRUCK: "the hot end, as it is struck",
}


def _given(one: PieceSteel) -> list[Advice]:
    """The tempers that its card has."""
    told = one.card.tempering if one.card else ()
    return [each for each in told if each.low is not None and each.name != "leave out"]


def _advice(one: PieceSteel) -> Advice | None:
    """What its card has for an edge."""
    edge = [each for each in _given(one) if each.name in ("tempering", "edge") and (each.low or 0) < EDGE[1]]
    return edge[-1] if edge else None


def _holds(at: Chosen[float]) -> Tempering:
    return Tempering(
        at,
        Chosen(HOLD, practice("An oven takes its time to warm the work through, and a temper works by time as well.")),
        Chosen(HOLDS, practice("The second tempers what the first has let turn to martensite.")),
        Chosen(7200.0, practice("Fresh martensite may crack by itself: into the oven while it is still hand-warm.")),
    )


def _against(hard: PieceSteel, wanted: float) -> list[Concern]:
    found = []
    for one in hard.card.tempering if hard.card else ():
        if one.name != "leave out" or one.low is None or one.high is None or not one.low < wanted < one.high:
            continue

        def what(units: Units, one: Advice = one) -> str:
            ends = f"{units.degrees(one.low)} to {units.temperature(one.high)}"
            return f"A temper at {units.temperature(wanted)} makes {hard.name} brittle: keep out of {ends}."

        found.append(Concern("temper", what, "Temper cooler for an edge, or hotter for a spring."))
    hottest = max((one.high for one in _given(hard) if one.high is not None), default=EDGE[1])
    if wanted > hottest + SLACK and not found:

        def hot(units: Units) -> str:
            most = f"{units.temperature(hottest)} is the hottest that is said for it"
            return f"A temper at {units.temperature(wanted)} leaves {hard.name} soft: {most}."

        mend = "Temper cooler, or take a steel that keeps its hardness hot, such as D2."
        found.append(Concern("temper", hot, mend, wanted > hottest + SOFT_BY))
    if wanted < kelvin(150):

        def cool(units: Units) -> str:
            return f"At {units.temperature(wanted)} the oven hardly takes the stress out of the quench."

        found.append(Concern("temper", cool, lambda units: f"Temper at {units.temperature(EDGE[0])} or hotter."))
    return found
