"""Which habits went with flawed welds, and whether so few sittings can tell."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from statistics import median
from typing import Final

from plans.logbook.comparing.fisher import fisher_exact
from plans.logbook.comparing.occasion import Occasion
from plans.logbook.figures import HeatEnd, HeatFigures
from plans.logbook.lines import What
from plans.record import record

_Heats = Sequence[HeatFigures]

SURE: Final = 0.05
"""A chance below this counts as more than chance, where one thing alone is tried: common practice."""
FEWEST: Final = 10
"""Below so many sittings nothing is said. Ten, parted five and five without an exception, come about by chance in
2 of comb(10, 5) = 252 cases: 0.0079, below `LIMIT`; of eight, parted evenly, in 2 of 70, which is not."""


@record
class Habit:
    """Something that a smith does in some sittings and not in others."""

    name: str
    """What it is called."""
    had: Callable[[_Heats], float | None]
    """A number for the weld heats of a sitting; None where nobody knows it."""
    what: What = What.COUNT
    """What kind of figure that number is, in SI."""
    is_more: bool | None = None
    """Whether more of that than usual is the habit, or less; None where any is. Usual is the median of the
    sittings that are looked at."""


def _least(values: Iterable[float | None]) -> float | None:
    return min((value for value in values if value is not None), default=None)


def _most(values: Iterable[float | None]) -> float | None:
    return max((value for value in values if value is not None), default=None)


HABITS: Final[tuple[Habit, ...]] = (
    Habit("struck too cold", lambda heats: sum(heat.was_too_cold for heat in heats)),
    Habit("back into the fire unstruck", lambda heats: sum(heat.end is HeatEnd.CUT_OFF for heat in heats)),
    Habit(
        "a shorter soak than usual",
        lambda heats: _least(heat.soak for heat in heats if heat.is_done),
        What.TIME,
        is_more=False,
    ),
    Habit(
        "out of the fire cooler than usual",
        lambda heats: _least(heat.leaving for heat in heats),
        What.TEMPERATURE,
        is_more=False,
    ),
    Habit(
        "longer in the fire than usual",
        lambda heats: _most(heat.in_fire for heat in heats),
        What.TIME,
        is_more=True,
    ),
    Habit(
        "hotter than usual",
        lambda heats: _most(heat.peak for heat in heats),
        What.TEMPERATURE,
        is_more=True,
    ),
)
"""What is looked at, laid down beforehand: a habit that is picked because it stands out always stands out."""

LIMIT: Final = SURE / len(HABITS)
"""A chance below this counts as more than chance, as so many habits are tried at once (Bonferroni's correction)."""


@record
class HabitTold:
    """How often welds were flawed with a habit and without it, counted in sittings."""

    habit: Habit
    """The habit."""
    usual: float | None
    """What is usual, in SI; None for a habit that has no usual."""
    flawed_with: int
    """Sittings with the habit and a flawed weld."""
    sound_with: int
    """Sittings with the habit and sound welds."""
    flawed_without: int
    """Sittings without it and with a flawed weld."""
    sound_without: int
    """Sittings without it and with sound welds."""

    @property
    def chance(self) -> float:
        """How often chance alone would part them at least as unevenly."""
        return fisher_exact(self.flawed_with, self.sound_with, self.flawed_without, self.sound_without)

    @property
    def is_told(self) -> bool:
        """Whether that is rarer than so many habits, tried at once, let expect."""
        return self.chance <= LIMIT


@record
class HabitsTold:
    """What the sittings tell of habits and flawed welds."""

    sittings: int
    """Sittings in which it was said of a weld what came of it."""
    flawed: int
    """Those of them that had a flawed weld."""
    habits: tuple[HabitTold, ...]
    """The habits that some had and some had not, and that are known of `FEWEST` sittings; none where they are too
    few, or all sound, or all flawed."""


def habits_told(looked_at: Iterable[Occasion]) -> HabitsTold:
    """Count habits and flawed welds.

    What is counted are sittings, not welds: those of one sitting came from one fire and one hand, and do not tell
    twice. A sitting is flawed if one of its welds is; of its heats those count whose weld was looked at.
    """
    cases = [
        (any(weld.flaws for _, weld in one.welds), [heat for step, _ in one.welds for heat in step.heats])
        for one in looked_at
        if one.welds
    ]
    flawed = sum(is_flawed for is_flawed, _ in cases)
    told = [_told(habit, cases) for habit in HABITS] if 0 < flawed < len(cases) and len(cases) >= FEWEST else []
    return HabitsTold(len(cases), flawed, tuple(one for one in told if one is not None))


def _told(habit: Habit, cases: Sequence[tuple[bool, _Heats]]) -> HabitTold | None:
    found = [(is_flawed, had) for is_flawed, heats in cases if (had := habit.had(heats)) is not None]
    if len(found) < FEWEST:
        return None
    usual = None if habit.is_more is None else median(had for _, had in found)
    counts = {(with_it, is_flawed): 0 for with_it in (True, False) for is_flawed in (True, False)}
    for is_flawed, had in found:
        has = had > 0 if usual is None else had > usual if habit.is_more else had < usual
        counts[has, is_flawed] += 1
    if not all(any(counts[with_it, is_flawed] for is_flawed in (True, False)) for with_it in (True, False)):
        return None
    return HabitTold(habit, usual, counts[True, True], counts[True, False], counts[False, True], counts[False, False])
