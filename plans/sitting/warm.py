"""The warm model run along a sitting, on a clock grid of its own, so that it never depends on how often it is asked."""

from __future__ import annotations

from array import array
from collections.abc import Iterable, Iterator, Sequence
from itertools import repeat
from math import isnan, nan

from plans.exposing import Lying, around, exposed, thin_part
from plans.phase import PhaseKind, Place
from plans.plan import Plan
from plans.reading import ProbeOn
from plans.record import record
from plans.shapes import Section
from plans.shop import Shop
from plans.sitting.kept_points import KeptPoints, kept_until, next_kept
from plans.sitting.running_piece import GRID, RunningPiece
from plans.sitting.undo import WorkBefore
from plans.warmth import MEASURED_START, START, Exposed, Part, Span, Surroundings, WarmModel, Warmth, still_air

_KEPT = 8
_NOTHING = Exposed(still_air(), (), (), START, True, None)

__all__ = ["GRID", "Exposure", "WorkWarmth"]


@record
class Exposure:
    """What the work is exposed to: it says in which surroundings, and in what shape, the warm model has it."""

    step: int
    """Number of the step that is going on, from 0."""
    heat: int
    """Number of the heat in the step, from 1."""
    phase: PhaseKind
    """What is going on."""
    in_the_air: bool
    """Whether it is in the air whatever the phase: the smith pauses, or carries it to the quench."""

    @property
    def is_struck(self) -> bool:
        """Whether it is being struck just now."""
        return self.phase.row.place is Place.ANVIL and not self.in_the_air


class WorkWarmth:
    """The warm model run along a sitting: how warm the work is at every grid point since it began.

    While the smith pauses, the work is taken to lie in the air: the model never says hotter than it is.

    Args:
        plan: tells sections, fires and ovens
        probe_on: where the probe sits; None without one
        shop: the smith's own figures
    """

    def __init__(self, plan: Plan, probe_on: ProbeOn | None, shop: Shop) -> None:
        self._plan = plan
        self.probe_on = probe_on
        """Where the probe sits; None without one."""
        self._shop = shop
        self._whole: RunningPiece | None = None
        self._shape: tuple[Section, float | None] | None = None
        self.count = 0
        """Grid points so far: so many half seconds were modelled."""
        self.skin_now = nan
        """Modelled skin now: its mean, or that of the struck face while the work is struck [K]; NaN where no section
        is known yet."""
        self.middle_now = nan
        """Modelled middle now [K]; NaN where no section is known yet."""
        self.kept = KeptPoints()
        """Which points of the grid the columns have: all of them, but few of a long time in which nothing came."""
        self.skin = array("d")
        """The skin at each point that is kept."""
        self.middle = array("d")
        """The middle at each point that is kept."""
        self._probe = array("d")
        """What the probe said at each point that is kept, filtered [K]; NaN where it said nothing."""
        self._probe_now = nan
        self._exposure: Exposure | None = None
        """What the work was exposed to at the last point."""
        self._entry = 0
        """The last point before the newest entry of the log."""
        self._next_kept = 1
        self._thin: RunningPiece | None = None
        """The thin part while it is struck."""
        self._thin_in: tuple[int, int] | None = None
        """The step and the heat that it is struck in."""
        self._exposed: dict[tuple[Exposure, Section, float], Exposed] = {}
        """What the work and its thin part were exposed to of late, where no probe tells it."""
        self._asked: tuple[object, Exposed] = None, _NOTHING
        self._fit(Exposure(0, 1, PhaseKind.READY, in_the_air=False))

    @property
    def known(self) -> bool:
        """Whether the work's warmth has been modelled yet."""
        return self._whole is not None and self.count > 0

    @property
    def warmth(self) -> Warmth | None:
        """How warm the work is now, place by place; None before its section is known."""
        return None if self._whole is None else self._whole.warmth

    @property
    def thin(self) -> Warmth | None:
        """How warm the thin part is while it is struck; None without a thin part, and while none is struck."""
        return None if self._thin is None else self._thin.warmth

    @property
    def section(self) -> Section | None:
        """Section of the work as it is now; None before it is known."""
        return None if self._whole is None else self._whole.section

    def take(self, model: WarmModel) -> None:
        """Go on from the work as a model has it now; the model is this object's from then on."""
        self._whole, self._shape = RunningPiece(model, self.count), (model.section, model.length)
        self._exposure = None

    def go_by(self, plan: Plan) -> None:
        """The plan with the sections that were measured, from now on; the work takes them on with the next point."""
        if plan != self._plan:
            self._plan, self._exposure = plan, None

    @property
    def plan(self) -> Plan:
        """The plan that it goes by: sections that were measured stand in place of those that were planned."""
        return self._plan

    def remember(self) -> WorkBefore:
        """The work as it is, for `go_back`."""
        whole = None if self._whole is None else self._whole.state()
        thin = None if self._thin is None else self._thin.state()
        return WorkBefore(self.count, whole, self._shape, thin, self._thin_in)

    def go_back(self, before: WorkBefore) -> list[tuple[int, float | None]]:
        """Go back to how the work was; what lies between must be run anew with `advance_to`.

        Returns:
            each point that was kept since, by its number on the grid, and what the probe said then, filtered [K]; None
            where it said nothing
        """
        first = self.kept.place_after(before.count * GRID)
        heard = [
            (self.kept.number(first + place), None if isnan(kelvin) else kelvin)
            for place, kelvin in enumerate(self._probe[first:])
        ]
        for column in (self.skin, self.middle, self._probe):
            del column[first:]
        self.kept.cut(first)
        self.count = before.count
        self._exposure = None
        self._shape = before.shape
        self._whole = None if before.whole is None else RunningPiece.of(before.whole)
        self._thin = None if before.thin is None else RunningPiece.of(before.thin)
        self._thin_in = before.thin_in
        return heard

    def advance(self, exposure: Exposure, probe: float | None) -> None:
        """Go on by one grid point.

        Args:
            exposure: what the work is exposed to
            probe: what the probe says, filtered [K]; None without one
        """
        self._fit(exposure)
        self.count += 1
        self._exposure = exposure
        self._probe_now = nan if probe is None else probe
        if self._whole is None:
            self.skin_now = self.middle_now = nan
        else:
            self._advance_work(self._whole, exposure, probe)
        if self.count >= self._next_kept:
            self._keep()

    def _advance_work(self, whole: RunningPiece, exposure: Exposure, probe: float | None) -> None:
        exposed = self._exposed_to(exposure, probe)
        if probe is not None and self.probe_on is ProbeOn.FIRE and not exposed.cools:
            whole.advance_in_changing_fire(exposed)
        else:
            whole.advance(exposed, probe if self.probe_on is ProbeOn.WORK else None)
        warmth = whole.warmth
        self.skin_now = warmth.face if exposure.is_struck else warmth.skin
        self.middle_now = warmth.middle
        self._cool_thin(exposure, warmth.skin)

    def _keep(self) -> None:
        """Keep the point that is now."""
        self._keep_point(self.count, self.skin_now, self.middle_now)
        self._next_kept = next_kept(self.count, self._entry)

    def _keep_point(self, number: int, skin: float, middle: float) -> None:
        self.kept.add(len(self.skin), number)
        self.skin.append(skin)
        self.middle.append(middle)
        self._probe.append(self._probe_now)

    def points(self) -> Iterator[tuple[int, float, float]]:
        """The points that are kept: number on the grid, skin and middle [K], NaN where no section was known."""
        return zip(map(self.kept.number, range(len(self.skin))), self.skin, self.middle, strict=True)

    def mark(self) -> None:
        """An entry of the log comes now, and the points up to it were modelled: the last of them is kept, and every one
        of the next hour."""
        if self._entry == self.count and self._next_kept == self.count + 1:
            return
        if self.count and (not self.skin or self.kept.number(len(self.skin) - 1) < self.count):
            self._keep()
        self._entry, self._next_kept = self.count, self.count + 1

    def stands(self, exposure: Exposure) -> bool:
        """Whether the work was exposed to the same at the last point, and only follows its course, led by no probe."""
        return exposure == self._exposure and all(piece is None or piece.stands for piece in (self._whole, self._thin))

    def foreseen(self, exposure: Exposure, number: int) -> tuple[float, float] | None:
        """Skin and middle at a later grid point if nothing changes [K]; None where no section is known.

        Args:
            exposure: what the work is exposed to
            number: the grid point
        """
        if self._whole is None:
            return None
        skin, middle = next(self._whole.foreseen(self._shown(exposure), [number - self.count]))
        return skin, middle

    def pass_over(self, exposure: Exposure, number: int) -> None:
        """Go on to a later grid point at once; the work must stand in this exposure.

        Args:
            exposure: what the work is exposed to
            number: the grid point
        """
        kept = [self._next_kept] if self.count < self._next_kept <= number else []
        kept += kept_until(self._next_kept, self._entry, number) if kept else ()
        points = [*kept, number]
        if self._whole is None:
            course: Iterable[Sequence[float]] = repeat((nan, nan))
        else:
            ahead = (point - self.count for point in points)
            course = list(self._whole.foreseen(self._shown(exposure), ahead))
        for point, (skin, middle) in zip(points, course, strict=False):
            self.skin_now, self.middle_now = skin, middle
            if point >= self._next_kept:
                self._keep_point(point, skin, middle)
                self._next_kept = next_kept(point, self._entry)
        for piece in (self._whole, self._thin):
            if piece is not None:
                piece.pass_over(number - self.count)
        self.count = number

    @staticmethod
    def _shown(exposure: Exposure) -> tuple[Part, Part]:
        return (Part.FACE if exposure.is_struck else Part.SKIN, Part.MIDDLE)

    def advance_to(self, number: int, exposure: Exposure, probe: float | None) -> None:
        """Go on to a later grid point, which is the next that is kept.

        Args:
            number: the grid point
            exposure: what the work is exposed to until then
            probe: what the probe says, filtered [K]; None without one
        """
        self._next_kept = number
        while self.count < number:
            self.advance(exposure, probe)
            if self.count < number and self.stands(exposure):
                self.pass_over(exposure, number)

    def _cool_thin(self, exposure: Exposure, skin: float) -> None:
        """The thin part comes out of the fire as hot as the work's skin, and from then on goes its own way."""
        step = self._plan.steps[exposure.step]
        strike = (exposure.step, exposure.heat)
        if step.thin is None or exposure.phase is not PhaseKind.STRIKE:
            self._thin = self._thin_in = None
        elif self._thin is None or self._thin_in != strike:
            assert self._shape is not None
            self._thin, self._thin_in = RunningPiece(thin_part(step, self._shape[0], skin), self.count), strike
        else:
            # A pause is no fire: it goes on cooling where the work does.
            self._thin.advance(self._thin_exposed(exposure))

    def _thin_exposed(self, exposure: Exposure) -> Exposed:
        section = self._plan.steps[exposure.step].thin
        assert section is not None
        return self._lasting(exposure, section, START)

    def see_at_heat(self, step: int, heat: int, probe: float | None) -> None:
        """The smith sees that the skin is at heat; the model goes by that, but never above what the fire has got.

        Args:
            step: number of the step, from 0
            heat: number of the heat in the step, from 1
            probe: what the probe says [K]; on the work it knows better than the eye. None without one
        """
        target = self._plan.steps[step].target(heat)
        if target is None or (probe is not None and self.probe_on is ProbeOn.WORK):
            return
        measured = self._measured_fire(probe)
        kelvin = min(target.heat_to, target.fire if measured is None else measured)
        self.assume_skin(Exposure(step, heat, PhaseKind.SOAK, in_the_air=False), probe, kelvin)

    def assume_skin(self, exposure: Exposure, probe: float | None, kelvin: float) -> None:
        """The smith sees that the skin is at `kelvin`; the middle still lags as far as this fire makes it."""
        if self._whole is not None:
            self._whole.assume_skin(kelvin, self._exposed_to(exposure, probe))

    def _exposed_to(self, exposure: Exposure, probe: float | None) -> Exposed:
        assert self._shape is not None
        section = self._shape[0]
        if (fire_at := self._measured_fire(probe)) is not None:
            return self._at_either_end(exposure, section, fire_at, START)
        return self._lasting(exposure, section, START if probe is None else MEASURED_START)

    def _lasting(self, exposure: Exposure, section: Section, start: float) -> Exposed:
        """What a piece of a section is exposed to where no probe tells the fire; kept, as it is asked for so often."""
        key = (exposure, section, start)
        if key == self._asked[0]:
            # The same as half a second ago: to hash it would take longer.
            return self._asked[1]
        if key not in self._exposed:
            if len(self._exposed) >= _KEPT:
                self._exposed.clear()
            self._exposed[key] = self._at_either_end(exposure, section, None, start)
        self._asked = key, self._exposed[key]
        return self._exposed[key]

    def _at_either_end(self, exposure: Exposure, section: Section, fire_at: float | None, start: float) -> Exposed:
        """What a piece of a section is exposed to, the fire being as a probe has it [K]."""
        return exposed(self._lying(exposure, section), self._shop, fire_at, start, (exposure, section))

    def _lying(self, exposure: Exposure, section: Section) -> Lying:
        step = self._plan.steps[exposure.step]
        return Lying(step, exposure.heat, exposure.phase, section, exposure.in_the_air)

    def around(self, exposure: Exposure, probe: float | None) -> Surroundings | None:
        """What the work gives its heat to, or takes it from; None before its section is known.

        Args:
            exposure: what it is exposed to
            probe: what the probe says, filtered [K]; None without one
        """
        if self._shape is None:
            return None
        return around(self._lying(exposure, self._shape[0]), self._shop, self._measured_fire(probe))

    def _measured_fire(self, probe: float | None) -> float | None:
        return probe if self.probe_on is ProbeOn.FIRE else None

    def until(self, exposure: Exposure, probe: float | None, part: Part, kelvin: float) -> Span | None:
        """How long until a part of the work has come to a temperature [s]; None where it likely never does.

        Args:
            exposure: what the work is exposed to: in a fire the part must rise to the temperature, elsewhere fall to it
            probe: what the probe says, filtered [K]; None without one
            part: which part of it
            kelvin: the temperature [K]
        """
        if self._whole is None:
            return None
        return self._whole.until(self._exposed_to(exposure, probe), part, kelvin)

    def likely_until(self, exposure: Exposure, probe: float | None, part: Part, kelvin: float) -> float | None:
        """How long until a part of the work likely has come to a temperature [s], without its range, which costs more.

        Args:
            exposure: what the work is exposed to
            probe: what the probe says, filtered [K]; None without one
            part: which part of it
            kelvin: the temperature [K]
        """
        return (
            None if self._whole is None else self._whole.likely_until(self._exposed_to(exposure, probe), part, kelvin)
        )

    def until_thin_is_cold(self, exposure: Exposure, kelvin: float) -> Span | None:
        """How long until the coldest place of the thin part that is struck falls to `kelvin` [s], 0 once it has.

        None without a thin part, and while none is struck.
        """
        if self._thin is None or self._thin_in != (exposure.step, exposure.heat) or not exposure.is_struck:
            return None
        return self._thin.until(self._thin_exposed(exposure), Part.COLDEST, kelvin)

    def _fit(self, exposure: Exposure) -> None:
        if exposure == self._exposure and self._whole is not None:
            return
        step = self._plan.steps[exposure.step]
        section = step.section_at(exposure.heat)
        if section is None:
            return
        shape = (section, step.length)
        if shape == self._shape:
            return
        if self._whole is None:
            self._whole = RunningPiece(WarmModel(section, step.length), self.count)
        else:
            self._whole.reshape(section, step.length)
        self._shape = shape
