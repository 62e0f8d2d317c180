"""A piece of work run along a sitting's clock grid by the warm model: solved ahead while nothing changes round it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple

from plans.shapes import Section
from plans.sitting.outlook import Exposed, Outlook, Span
from plans.warmth import Heat, Part, Snapshot, WarmModel, Warmth

GRID = 0.5
"""Spacing of the grid on which the warm model runs and the sitting decides [s]."""
_AFRESH = 4
"""While a probe leads it, what lies ahead is reckoned anew after so many grid points."""
_STRUCK_STEP, _MEASURED_STEP, _STEADY_STEP = 2, 4, 8
"""And the model takes one step for so many: while it is struck, else, and while its middle hardly changes."""
_STEADY = 0.25
"""It hardly changes where it does so by less than this: 1 K in a step [K/s]."""


class PieceState(NamedTuple):
    """All that a running piece hangs on; small, since its course is solved anew from it."""

    model: Snapshot
    """The state of its model."""
    at: int
    """The grid point that it is at."""
    began: int
    """The grid point at which what lies ahead was reckoned."""
    stepped: int
    """The grid point of the model's last step, where a probe leads it."""
    led: bool
    """Whether a probe leads it."""
    outlook: tuple[Heat, Exposed] | None
    """The heat from which what lies ahead was reckoned, and what it was exposed to; None where it was not."""


class RunningPiece:
    """A piece from the grid point at which it is first modelled.

    Where what is round it stays the same, its course is solved once, and the temperatures at the grid points are read
    from it; where a probe tells the skin or the fire from moment to moment, it is solved step by step.
    """

    def __init__(self, model: WarmModel, count: int) -> None:
        """Begin to run a piece.

        Args:
            model: the piece as it is; it is this object's from now on
            count: number of the grid point
        """
        self._model = model
        self._count = count
        self._began = count
        """The grid point at which the outlook begins, and with it the state that the model is in."""
        self._outlook: Outlook | None = None
        self._led = False
        """Whether a probe leads it: then the model is in the state of the last step, and not of the beginning."""
        self._stepped = count
        self._aside: tuple[tuple[int, Exposed], Outlook] | None = None
        """What was asked about last without being so: an answer that changes nothing."""

    @property
    def section(self) -> Section:
        """Cross-section of the work."""
        return self._model.section

    @property
    def length(self) -> float | None:
        """Length of the work [m]; None where the plan does not say."""
        return self._model.length

    @property
    def warmth(self) -> Warmth:
        """How warm it is at the last grid point, place by place."""
        if self._led or self._outlook is None:
            return self._model.warmth
        return self._outlook.likely.warmth_at(self._gone)

    @property
    def _heat(self) -> Heat:
        """The heat in it now."""
        if self._outlook is None:
            return self._model.heat
        if not self._led:
            return self._outlook.likely.heat_at(self._gone) if self._count > self._began else self._model.heat
        left = (self._count - self._stepped) * GRID
        if not left:
            return self._model.heat
        # The probe's step was not due yet.
        return self._model.piece.solve(self._model.heat, left, self._outlook.exposed.likely)

    @property
    def _gone(self) -> float:
        return (self._count - self._began) * GRID

    def advance(self, exposed: Exposed, skin: float | None = None) -> None:
        """Go on by one grid point.

        Args:
            exposed: what it is exposed to
            skin: what a probe on it says [K]; None where none does
        """
        if skin is not None:
            self._lead(exposed, skin)
        else:
            self.expose(exposed)
            self._count += 1

    @property
    def stands(self) -> bool:
        """Whether it only follows its course, as it lies in what it was exposed to last and no probe leads it."""
        return self._outlook is not None and not self._led

    def foreseen(self, parts: Sequence[Part], points: Iterable[int]) -> Iterator[list[float]]:
        """The temperatures of parts of it so many grid points from now, in order, if it only follows its course [K]."""
        assert self._outlook is not None, "what lies ahead of it was reckoned"
        return self._outlook.likely.kelvins_at(parts, (self._gone + point * GRID for point in points))

    def pass_over(self, points: int) -> None:
        """Go on by so many grid points at once, following its course."""
        assert self.stands, "what is round it stays"
        self._count += points

    def advance_in_changing_fire(self, exposed: Exposed) -> None:
        """Go on by one grid point in a fire that a probe measures, so that it is another at every one."""
        self._lead(exposed, None)

    def _lead(self, exposed: Exposed, skin: float | None) -> None:
        if not self._led or self._outlook is None or self._outlook.exposed.of != exposed.of:
            self._settle()
            self._led = True
        self._count += 1
        if self._outlook is not None and self._count - self._stepped < self._due(exposed):
            return
        seconds, self._stepped = (self._count - self._stepped) * GRID, self._count
        if skin is None:
            self._model.step(seconds, exposed.likely)
        else:
            self._model.step_following(seconds, skin, exposed.likely)
        if self._outlook is None or self._count - self._began >= _AFRESH:
            self._began, self._outlook = self._count, Outlook(self._model, exposed)

    def _due(self, exposed: Exposed) -> int:
        """How many grid points after the last step of a piece that is led the next is due."""
        if exposed.likely.contact:
            return _STRUCK_STEP
        return _STEADY_STEP if abs(self._model.middle_rate) < _STEADY else _MEASURED_STEP

    def expose(self, exposed: Exposed) -> None:
        """Lay it into what it is exposed to from now on; nothing changes where it lay in that already."""
        if self._led or self._outlook is None or self._outlook.exposed != exposed:
            self._settle()
            self._began, self._outlook = self._count, Outlook(self._model, exposed)

    def until(self, exposed: Exposed, part: Part, kelvin: float) -> Span | None:
        """How long until a part has come to a temperature [s]; None where it likely never does.

        Args:
            exposed: what the piece is exposed to
            part: which part
            kelvin: the temperature [K]
        """
        outlook, gone = self._seen(exposed)
        return outlook.time_until(part, kelvin, gone)

    def likely_until(self, exposed: Exposed, part: Part, kelvin: float) -> float | None:
        """How long until a part likely has come to a temperature [s]; None where it never does.

        Args:
            exposed: what the piece is exposed to
            part: which part
            kelvin: the temperature [K]
        """
        outlook, gone = self._seen(exposed)
        return outlook.likely_until(part, kelvin, gone)

    def _seen(self, exposed: Exposed) -> tuple[Outlook, float]:
        """What lies ahead, and how long ago it began [s]."""
        now = self._outlook
        if now is not None and (now.exposed.of == exposed.of if self._led else now.exposed == exposed):
            return now, self._gone
        # Something has changed since the last grid point, or is only asked about: the piece itself must not change.
        key = (self._count, exposed)
        if self._aside is None or self._aside[0] != key:
            self._aside = (key, Outlook(WarmModel.of(replace(self._model.snapshot(), heat=self._heat)), exposed))
        return self._aside[1], 0.0

    def reshape(self, section: Section, length: float | None) -> None:
        """Take on another section and length [m]."""
        self._settle()
        self._model.reshape(section, length)

    def assume_skin(self, kelvin: float, exposed: Exposed) -> None:
        """The smith sees that the skin is at `kelvin`; the middle still lags as far as what is round it makes it."""
        self._settle()
        self._model.assume_skin(kelvin, exposed.likely)

    def state(self) -> PieceState:
        """All that the piece hangs on, for `of`."""
        outlook = self._outlook
        return PieceState(
            self._model.snapshot(),
            self._count,
            self._began,
            self._stepped,
            self._led,
            None if outlook is None else (outlook.start, outlook.exposed),
        )

    @classmethod
    def of(cls, state: PieceState) -> RunningPiece:
        """A piece in the very state that `state` told; it goes on to the last bit as that one would have."""
        piece = cls(WarmModel.of(state.model), state.at)
        piece._began, piece._stepped, piece._led = state.began, state.stepped, state.led
        if state.outlook is not None:
            start, exposed = state.outlook
            at_the_beginning = WarmModel.of(replace(state.model, heat=start))
            piece._outlook = Outlook(at_the_beginning, exposed)
        return piece

    def _settle(self) -> None:
        """Bring the model to the state of now; its course begins anew."""
        self._model.take(self._heat)
        self._began = self._stepped = self._count
        self._outlook, self._led = None, False
