"""All that is known of one steel: what is stated for its grade, what is computed beside it, how far the two differ."""

from __future__ import annotations

from plans.record import record
from plans.steel import critical, hypereutectoid, martensite, ranges, tempering
from plans.steel.advice import Advice, CriticalPoints, StatedRange
from plans.steel.composition import Composition
from plans.steel.finding import Finding, Origin
from plans.steel.grades import Grade, Stated, What
from plans.steel.hypereutectoid import Hardened


@record
class Findings:
    """What is found for one critical temperature of a steel: the best figure, and the others beside it."""

    best: Finding
    """The stated figure where there is one, else the computed one that is trusted most."""
    beside: tuple[Finding, ...]
    """The other computed figures, the most trusted one first; empty where there are none."""

    @property
    def name(self) -> str:
        """Which temperature it is: "Ac1", "Ac3", "Acm", "Ms" or "Bs"."""
        return self.best.name

    @property
    def difference(self) -> float | None:
        """The most trusted computed figure less the stated one: a temperature difference [K]; None unless both are."""
        computed = next((one.value for one in self.beside if not one.origin.is_stated), None)
        if not self.best.origin.is_stated or self.best.value is None or computed is None:
            return None
        return computed - self.best.value


@record
class Card:
    """A steel, its critical temperatures, and what follows from them for the fire."""

    steel: Composition
    """What the figures are computed for: the composition that was given, or the middle of the grade."""
    grade: Grade | None
    """The grade that was given; None where it was a composition."""
    ac1: Findings
    """Ac1, where austenite begins to form on heating."""
    upper: Findings
    """The upper critical temperature: Ac3, or Acm of a steel with more carbon than its eutectoid."""
    ms: Findings
    """Ms, where martensite begins to form on cooling; computed for austenite that holds all of the carbon."""
    bs: Findings
    """Bs, where bainite begins to form on cooling; computed for austenite that holds all of the carbon."""
    hardened: Hardened | None
    """A hypereutectoid steel as quenched from the middle of its hardening range; None for every other steel."""
    dissolved_by_card: float | None
    """Carbon dissolved in the austenite that the stated Ms stands for [mass %]; None where no Ms is stated, and for
    steel of so little carbon that all of it dissolves."""
    normalizing: tuple[Advice, ...]
    """The heats of normalizing, in order; or one piece of advice that says why there are none."""
    hardening: Advice
    """Where to quench from, or why not to."""
    tempering: tuple[Advice, ...]
    """Where to temper and what range to keep out of; or one piece of advice that says why there is no temper."""


def card_of(of: Grade | Composition) -> Card:
    """All that is known of a steel.

    Args:
        of: a grade, which is computed with the middle of its ranges and shows what is stated for it; or a composition
    """
    grade = of if isinstance(of, Grade) else None
    steel = of.middle if isinstance(of, Grade) else of
    upper = critical.upper(steel)
    ac1 = _quantity(grade, critical.ac1(steel))
    high = _quantity(grade, upper)
    ms = _quantity(grade, martensite.ms(steel), martensite.ms_andrews(steel))
    bs = _quantity(grade, critical.bs(steel), critical.bs_steven_haynes(steel))
    on = CriticalPoints(
        steel,
        ac1.best.value,
        high.best.value,
        upper.name == What.ACM,
        air_hardening=grade is not None and grade.air_hardening,
        through=max((one.high for one in (high.best, *high.beside) if one.high is not None), default=None),
        brittle=grade is None or grade.no_brittle_range is None,
    )
    hardening = ranges.hardening(on, _range(grade, What.HARDENING))
    return Card(
        steel=steel,
        grade=grade,
        ac1=ac1,
        upper=high,
        ms=ms,
        bs=bs,
        hardened=_hardened(steel, hardening),
        dissolved_by_card=_dissolved_by_card(ms.best, steel),
        normalizing=ranges.normalizing(on, hardening, _range(grade, What.NORMALIZING)),
        hardening=hardening,
        tempering=tempering.tempering(on, _range(grade, What.TEMPERING)),
    )


def stated_finding(grade: Grade, what: What) -> Finding | None:
    """What is stated for one critical temperature of a grade, over all who state it; None where nobody does."""
    stated = grade.stated_for(what)
    if not stated:
        return None
    low, high = min(one.low for one in stated), max(one.high for one in stated)
    return Finding(what.value, low, high, _origin(stated), "as stated", _sources(stated), _notes(stated))


def _quantity(grade: Grade | None, *computed: Finding) -> Findings:
    stated = stated_finding(grade, What(computed[0].name)) if grade and computed[0].name != "Bs" else None
    return Findings(stated, computed) if stated else Findings(computed[0], computed[1:])


def _origin(stated: tuple[Stated, ...]) -> Origin:
    # the table has no figure from memory beside one that was looked up
    return Origin.PUBLISHED if all(one.source.looked_up for one in stated) else Origin.MEMORY


def _sources(stated: tuple[Stated, ...]) -> str:
    return "; ".join(dict.fromkeys(str(one.source) for one in stated))


def _notes(stated: tuple[Stated, ...]) -> str:
    return "; ".join(dict.fromkeys(one.note for one in stated if one.note))


def _range(grade: Grade | None, what: What) -> StatedRange | None:
    """What all who state a range for a treatment agree on, or all that they span where they agree on nothing."""
    stated = grade.stated_for(what) if grade else ()
    if not stated:
        return None
    low, high = max(one.low for one in stated), min(one.high for one in stated)
    if low > high:
        low, high = min(one.low for one in stated), max(one.high for one in stated)
    return StatedRange(low, high, _sources(stated), _notes(stated), _origin(stated))


def _hardened(steel: Composition, hardening: Advice) -> Hardened | None:
    if hardening.low is None or hardening.high is None:
        return None
    return hypereutectoid.hardened(steel, (hardening.low + hardening.high) / 2)


def _dissolved_by_card(ms: Finding, steel: Composition) -> float | None:
    if not ms.origin.is_stated or ms.value is None or steel.carbon <= critical.ANDREWS_CARBON:
        return None
    return martensite.carbon_for(ms.value, steel)
