"""The warm model run anew, when it is known only later what the work was exposed to: undo, redo, a moved word."""

from __future__ import annotations

from plans.phase import PhaseKind
from plans.sitting.events import Begun, Cause
from plans.sitting.running_piece import GRID
from plans.sitting.state import State
from plans.sitting.undo import WorkBefore
from plans.sitting.warm import Exposure, WorkWarmth

Kept = tuple[int, WorkBefore | None]
"""How many phases had begun, and how the work was then; None where no warm model ran along."""


def exposure_at(state: State, at: float) -> Exposure:
    """What the work was exposed to up to `at` [s], as it is known by now."""
    begun = state.begun_at(at)
    return Exposure(begun.step, begun.heat, begun.phase, state.was_out(at))


def run_anew(warm: WorkWarmth, state: State, kept: Kept, probe: float | None) -> None:
    """Go back to how the work was, and run the warm model up to now by all that is known of the time since.

    Args:
        warm: the warm model; it is changed
        state: where the sitting stands, by what is known now
        kept: how the work was
        probe: what the probe says just now [K]; None without one
    """
    begins, before = kept
    assert before is not None, "a sitting hands its warm model to every event"
    heard = warm.go_back(before)
    ahead = list(range(begins, len(state.begins)))
    for number, kelvin in heard:
        while ahead and state.begins[ahead[0]].began < number * GRID:
            began = int(state.begins[ahead[0]].began / GRID)
            if warm.count < began < number - 1:
                _advance(warm, state, began, kelvin)
            _see_at_heat(warm, state.begins, ahead.pop(0), kelvin)
        _advance(warm, state, number, kelvin)
    for place in ahead:
        _see_at_heat(warm, state.begins, place, probe)


def _advance(warm: WorkWarmth, state: State, number: int, kelvin: float | None) -> None:
    """Go on to a grid point, be it after a long time: where the exposure changes meanwhile, as closely as need be."""
    last, halfway = exposure_at(state, number * GRID), (warm.count + number) // 2
    if warm.count < halfway and exposure_at(state, (warm.count + 1) * GRID) != last:
        _advance(warm, state, halfway, kelvin)
        _advance(warm, state, number, kelvin)
    else:
        warm.advance_to(number, last, kelvin)


class Retracing:
    """What is kept of the work for when more is known of its past, beside the undo points.

    Args:
        begun_with: the work as the sitting begins
    """

    def __init__(self, begun_with: WorkBefore) -> None:
        self._bases: list[Kept] = [(0, begun_with)]
        """How the work was as the sitting began, and each time that the program was started again."""
        self._asked_with: Kept | None = None
        """How the work was as a word was asked about last."""
        self._rewritten: list[tuple[float, float]] = []
        """What of the past was run anew, from and to [s]: what was kept of it before is no longer so."""

    def keep_restarted(self, begins: int, work: WorkBefore) -> None:
        """The program was started again when so many phases had begun and the work was so."""
        self._bases.append((begins, work))

    def keep_asked(self, begins: int, work: WorkBefore) -> None:
        """A word was asked about when so many phases had begun and the work was so."""
        self._asked_with = begins, work

    def retrace(self, warm: WorkWarmth, state: State, since: float, now: float, probe: float | None) -> None:
        """Run the warm model anew from the last time before `since` [s] from which it is kept how the work was.

        Where nothing is kept from before that time, as after a long break, the model stays as it is.

        Args:
            warm: the warm model; it is changed
            state: where the sitting stands, by what is known now
            since: from when on the work was exposed to something else than was known then [s]
            now: the time [s]
            probe: what the probe says just now [K]; None without one
        """
        aside = self._bases if self._asked_with is None else [*self._bases, self._asked_with]
        points = [(point.begins, point.work) for point in state.undo_points]
        kept = [(begins, work) for begins, work in (*aside, *points) if work is not None]
        for begins, work in sorted(kept, key=lambda one: -one[1].count):
            if begins > len(state.begins):
                continue
            at = work.count * GRID
            if at <= since and not any(start < at <= made for start, made in self._rewritten):
                run_anew(warm, state, (begins, work), probe)
                break
        self._rewritten.append((since, now))


def _see_at_heat(warm: WorkWarmth, begins: list[Begun], place: int, probe: float | None) -> None:
    """The smith saw that the skin was at heat as the phase at this place began, where it was so."""
    begun = begins[place]
    from_the_fire = place > 0 and begins[place - 1].phase is PhaseKind.FIRE
    if begun.phase is PhaseKind.SOAK and begun.cause is Cause.WORD and from_the_fire:
        warm.see_at_heat(begun.step, begun.heat, probe)
