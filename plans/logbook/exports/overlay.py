"""One heat of several sittings over one another, as a picture of a page."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from plans.logbook.comparing import LETTERS, Laid, apart
from plans.logbook.exports.writing import in_markup, on_paper
from plans.logbook.thinning import Points, swinging_door
from plans.shown import show_clock
from plans.sitting import Basis
from plans.units import Units

WIDTH, _HEIGHT = 420.0, 236.0
"""Size of the picture; two of them stand side by side across a printed page, where 12 units are 7 pt."""
_LEFT, _RIGHT, _TOP, _BOTTOM = 44.0, 18.0, 26.0, 210.0
_TICKS = (1.0, 2.0, 5.0, 10.0, 15.0, 30.0, 60.0, 120.0, 300.0, 600.0, 1800.0, 3600.0, 7200.0)
_MOST_TICKS = 6
_LETTERS_ON_IT = 4
"""A curve has its letter on it so often, besides at its end."""


def overlay(laid: Sequence[Laid | None], label: str, units: Units) -> Iterator[str]:
    """The heats as one SVG picture: each curve in its colour with its letter on it, dashed where it is modelled.

    Args:
        laid: the heat of each sitting, from the same moment on; one at least
        label: what it is, for whoever hears the page
        units: that temperatures are shown in
    """
    yield f'<svg viewBox="0 0 {WIDTH:g} {_HEIGHT:g}" role="img"><title>{in_markup(on_paper(label))}</title>'
    yield from _Overlay(laid, units).draw()
    yield "</svg>"


class _Overlay:
    """From time since the moment and temperature to places in the picture."""

    def __init__(self, laid: Sequence[Laid | None], units: Units) -> None:
        self._units = units
        self._seconds = max(1.0, *(one.seconds for one in laid if one is not None))
        every = apart(laid)
        self._found = {
            letter: [(at, *skin) for at, skin in one.every(every) if skin is not None]
            for letter, one in zip(LETTERS, laid, strict=False)
            if one is not None
        }
        self._every = every
        degrees = [units.to_degrees(kelvin) for found in self._found.values() for _, kelvin, _ in found] or [
            0.0,
            1000.0,
        ]
        low, high = min(degrees), max(degrees)
        self._step = next((step for step in (20, 50, 100, 200, 400, 500) if (high - low) / step <= 5), 1000)
        self._low = (low - 5) // self._step * self._step
        self._high = -(-(high + 5) // self._step) * self._step

    def draw(self) -> Iterator[str]:
        yield from self._grid()
        for place, letter in enumerate(self._found):
            for basis, piece in self._pieces(letter):
                path = "L".join(f"{self._x(at):.1f} {self._y(kelvin):.1f}" for at, kelvin in piece)
                kind = " modelled-part" if basis is Basis.MODELLED else ""
                yield f'<path class="curve of-{letter.lower()}{kind}" d="M{path}"/>'
            yield from self._letters(letter, place)

    def _pieces(self, letter: str) -> Iterator[tuple[Basis, Points]]:
        """The curve of a sitting in pieces without a gap, each measured or modelled."""
        part: list[tuple[float, float, Basis]] = []
        for point in [*self._found[letter], None]:
            if point is None or (part and point[0] - part[-1][0] > 1.5 * self._every):
                yield from self._by_basis(part)
                part = []
            if point is not None:
                part.append(point)

    def _by_basis(self, part: list[tuple[float, float, Basis]]) -> Iterator[tuple[Basis, Points]]:
        before: Points = []
        for basis, run in groupby(part, lambda point: point[2]):
            points = [*before[-1:], *((at, kelvin) for at, kelvin, _ in run)]
            if len(points) > 1:
                yield basis, swinging_door(points, 1.0)
            before = points

    def _letters(self, letter: str, place: int) -> Iterator[str]:
        """Each at other times than the others' letters, so that none hides one."""
        found = self._found[letter]
        if not found:
            return
        share = (place + 0.5) / len(self._found) / _LETTERS_ON_IT
        wanted = [self._seconds * (share + number / _LETTERS_ON_IT) for number in range(_LETTERS_ON_IT)]
        places = [min(found, key=lambda point: abs(point[0] - at)) for at in wanted if at <= found[-1][0]]
        for at, kelvin, _ in dict.fromkeys([*places, found[-1]]):
            yield f'<text class="on-it of-{letter.lower()}" x="{self._x(at):.1f}" y="{self._y(kelvin) + 4:.1f}">'
            yield f"{letter}</text>"

    def _grid(self) -> Iterator[str]:
        degree, step = self._low, self._step
        while degree <= self._high:
            y = self._y(self._units.from_degrees(degree))
            yield f'<path class="line" d="M{_LEFT:g} {y:.1f}H{WIDTH - _RIGHT:g}"/>'
            yield f'<text class="scale" x="{_LEFT - 6:g}" y="{y + 4:.1f}">{degree:.0f}</text>'
            degree += step
        yield f'<text class="scale" x="{_LEFT - 6:g}" y="{_TOP - 12:g}">{on_paper(self._units.degree)}</text>'
        tick = next((tick for tick in _TICKS if self._seconds / tick <= _MOST_TICKS), _TICKS[-1])
        for number in range(int(self._seconds / tick) + 1):
            x = self._x(number * tick)
            yield f'<path class="tick" d="M{x:.1f} {_BOTTOM:g}v4"/>'
            yield f'<text class="clock" x="{x:.1f}" y="{_BOTTOM + 18:g}">{show_clock(number * tick)}</text>'

    def _x(self, at: float) -> float:
        return _LEFT + at / self._seconds * (WIDTH - _LEFT - _RIGHT)

    def _y(self, kelvin: float) -> float:
        share = (self._units.to_degrees(kelvin) - self._low) / (self._high - self._low)
        return _BOTTOM - share * (_BOTTOM - _TOP)
