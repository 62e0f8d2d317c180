"""A piece of work run along a sitting's clock grid by the warm model: solved ahead while nothing changes round it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple

from plans.shapes import Section
from plans.warmth import Exposed, Heat, Outlook, Part, Snapshot, Span, WarmModel, Warmth

GRID = 0.5
"""Spacing of the grid on which the warm model runs and the sitting decides [s]."""
_AFRESH = 4
"""While a probe leads it, what lies ahead is reckoned anew after so many grid points."""
_CHANGING_STEP, _STRUCK_STEP, _LONGEST_STEP = 4, 4, 12
"""And the model takes a step after so many at the latest: in a fire that a probe measures, while it is struck, else."""
_OFF = 5.0
"""It takes one at once where the skin is further than this from what it would be if it went on as in the last step: a
temperature difference [K]. On simulated heats of sections of 6 to 50 mm, read ten times a second with a noise of 0.5 to
4 K, that comes within 0.6 K of a step at every point in a sixth or less of the steps; of steps at set times, every 2 s,
the middle was three times as far off."""


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
    rates: Warmth | None
    """How fast each place changed in the last step [K/s]; None where no probe has led it for a step."""
    skin: float | None
    """What the probe on it said last [K]; None where none does."""
    later: tuple[int, float | None] | None
    """The grid point since the last step from which what lies ahead is to be reckoned, and the skin there [K]; None
    where it is reckoned from the step."""


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
        self._rates: Warmth | None = None
        """How fast each place changed in the last step [K/s]; None where a probe does not lead it yet."""
        self._skin: float | None = None
        """What the probe on it said last [K]."""
        self._later: tuple[int, float | None] | None = None
        """The grid point since the last step from which what lies ahead is reckoned, if it is asked for, and the skin
        there [K]; None for the outlook."""
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
        """How warm it is at the last grid point, place by place; between two steps as if it went on as in the last."""
        if self._outlook is None:
            return self._model.warmth
        if not self._led:
            return self._outlook.likely.warmth_at(self._gone)
        now, rates, since = self._model.warmth, self._rates, (self._count - self._stepped) * GRID
        if rates is None or not since:
            return now
        return Warmth(
            now.skin + since * rates.skin,
            now.coldest + since * rates.coldest,
            now.face + since * rates.face,
            now.middle + since * rates.middle,
        )

    def _bring_to_now(self, model: WarmModel) -> None:
        """Bring a model that is in the state of this piece's own to the state of now."""
        if self._outlook is None:
            return
        if not self._led:
            model.take(self._outlook.likely.heat_at(self._gone) if self._count > self._began else model.heat)
        elif self._count > self._stepped:
            # The probe's step was not due yet.
            self._step(model, self._outlook.exposed, self._count, self._skin)

    def _step(self, model: WarmModel, exposed: Exposed, to: int, skin: float | None) -> None:
        """Take a step of a piece that a probe leads, from its last one to a grid point where the skin is so [K]."""
        seconds = (to - self._stepped) * GRID
        if skin is None:
            model.step(seconds, exposed.likely)
        else:
            model.step_following(seconds, skin, exposed.likely)

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
        self._skin = skin
        if self._outlook is not None and not self._is_due(exposed):
            if self._count - (self._began if self._later is None else self._later[0]) >= _AFRESH:
                self._later = self._count, skin
            return
        before = self._model.warmth
        self._step(self._model, exposed, self._count, skin)
        self._later = None
        seconds, self._stepped = (self._count - self._stepped) * GRID, self._count
        changed = zip(self._model.warmth, before, strict=True)
        self._rates = Warmth(*((kelvin - was) / seconds for kelvin, was in changed))
        if self._outlook is None or self._count - self._began >= _AFRESH:
            self._began, self._outlook = self._count, Outlook(self._model, exposed)

    def _is_due(self, exposed: Exposed) -> bool:
        """Whether the step of a piece that a probe leads is due at this grid point."""
        since = self._count - self._stepped
        if self._skin is None:
            return since >= _CHANGING_STEP
        if since >= (_STRUCK_STEP if exposed.likely.contact else _LONGEST_STEP):
            return True
        rate = 0.0 if self._rates is None else self._rates.skin
        return abs(self._skin - self._model.warmth.skin - since * GRID * rate) > _OFF

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
            return (now, self._gone) if self._later is None else self._seen_later(now.exposed, *self._later)
        # Something has changed since the last grid point, or is only asked about: the piece itself must not change.
        key = (self._count, exposed)
        if self._aside is None or self._aside[0] != key:
            model = WarmModel.of(self._model.snapshot())
            self._bring_to_now(model)
            self._aside = (key, Outlook(model, exposed))
        return self._aside[1], 0.0

    def _seen_later(self, exposed: Exposed, at: int, skin: float | None) -> tuple[Outlook, float]:
        """The same from a grid point since the last step."""
        key = (at, exposed)
        if self._aside is None or self._aside[0] != key:
            model = WarmModel.of(self._model.snapshot())
            self._step(model, exposed, at, skin)
            self._aside = key, Outlook(model, exposed)
        return self._aside[1], (self._count - at) * GRID

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
            self._rates,
            self._skin,
            self._later,
        )

    @classmethod
    def of(cls, state: PieceState) -> RunningPiece:
        """A piece in the very state that `state` told; it goes on to the last bit as that one would have."""
        piece = cls(WarmModel.of(state.model), state.at)
        piece._began, piece._stepped, piece._led = state.began, state.stepped, state.led
        piece._rates, piece._skin, piece._later = state.rates, state.skin, state.later
        if state.outlook is not None:
            start, exposed = state.outlook
            at_the_beginning = WarmModel.of(replace(state.model, heat=start))
            piece._outlook = Outlook(at_the_beginning, exposed)
        return piece

    def _settle(self) -> None:
        """Bring the model to the state of now; its course begins anew."""
        self._bring_to_now(self._model)
        self._began = self._stepped = self._count
        self._outlook = self._rates = self._skin = self._later = None
        self._led = False
