"""The trace of a sitting as pictures for a page: SVG strips with heats shaded, limits and calls marked."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from html import escape
from math import inf

from plans.logbook.exports.strips import LimitStretch, limit_stretches, strips
from plans.logbook.exports.tables import finding_mark
from plans.logbook.exports.writing import in_markup, on_paper
from plans.logbook.finding import Finding
from plans.logbook.lines import call_text
from plans.logbook.looking_back import LookingBack
from plans.logbook.thinning import Points, pieces_of, thin
from plans.logbook.timeline import Timeline
from plans.prose import in_units
from plans.reading import ProbeOn
from plans.record import record
from plans.shown import show_clock, show_duration
from plans.sitting import Call, Called, PhaseSpan, Shape, shaded_spans
from plans.units import Units, kelvin

WIDTH, HEIGHT = 1200.0, 330.0
"""Size of a strip that is as long as any, in units of the picture."""
_LEFT, _RIGHT, _TOP, _BOTTOM = 46.0, 24.0, 30.0, 284.0
"""The plot, inside the picture."""
_HEATS_AT = _BOTTOM + 15.0
_CLOCK_AT = _BOTTOM + 34.0
_TICKS = (5.0, 10.0, 15.0, 30.0, 60.0, 120.0, 300.0, 600.0, 900.0, 1800.0, 3600.0, 7200.0, 14400.0, 43200.0)
_MOST_TICKS = 10
_LETTER = 6.4
"""Width of a letter of a step's title, about."""
_MARK = 18.0
"""Room that the mark of a finding takes."""
_CROWDED = 90.0
"""A limit with another one so little above it has its name below it: a temperature difference [K]."""

_SHAPES = {
    Shape.DIAMOND: '<path class="prompt" d="M0-5 5 0 0 5-5 0Z"/>',
    Shape.DOWN: '<path class="alarm cold" d="M-6-5H6L0 6Z"/>',
    Shape.UP: '<path class="alarm burn" d="M-6 5H6L0-6Z"/>',
    Shape.SQUARE: '<path class="alarm burn" d="M-5-5H5V5H-5Z"/>',
    Shape.WAVE: '<path class="probe" fill="none" d="M-6 2C-4-4-2-4 0 0S4 4 6-2"/>',
    Shape.ARROW: '<path class="probe" fill="none" d="M0-6V5M-4 1 0 5 4 1"/>',
    Shape.CROSS: '<path class="probe" d="M-4-4 4 4M-4 4 4-4"/>',
    Shape.PLUS: '<path class="probe" d="M-5 0H5M0-5V5"/>',
}


def call_mark(call: Call) -> str:
    """The mark of a call on the page, as an SVG element around the origin."""
    return _SHAPES[call.row.shape]


@record
class DrawnCurve:
    """One curve of the page's trace, thinned."""

    kind: str
    """What it is, and how it is drawn: "measured", "modelled", "middle" or "fire", as the style names them."""
    pieces: list[Points]
    """Its unbroken pieces, in order."""


def curves(timeline: Timeline) -> list[DrawnCurve]:
    """The curves of a sitting, the most important last: it lies on top."""
    kept = timeline.kept
    skin, middle = thin(pieces_of(kept.skin)), thin(pieces_of(kept.middle))
    measured = thin(timeline.believed.pieces(0.0, inf))
    if kept.header.probe_on is ProbeOn.WORK:
        skin = [part for piece in skin for part in _without(piece, measured)]
        return [DrawnCurve("middle", middle), DrawnCurve("modelled", skin), DrawnCurve("measured", measured)]
    return [DrawnCurve("fire", measured), DrawnCurve("middle", middle), DrawnCurve("modelled", skin)]


def pictures(back: LookingBack, drawn: list[DrawnCurve], units: Units) -> Iterator[str]:
    """The sitting as SVG, one strip after the other, all on the same scale."""
    timeline = back.timeline
    limits = limit_stretches(timeline)
    values = [value for curve in drawn for piece in curve.pieces for _, value in piece]
    top = max([*values, *(limit.kelvin for limit in limits), kelvin(900.0)])
    parts, longest = strips(timeline)
    waiting = sorted(enumerate(back.findings, 1), key=lambda numbered: numbered[1].at)
    for number, (begin, end) in enumerate(parts, 1):
        mine = [numbered for numbered in waiting if numbered[1].at <= end]
        waiting = waiting[len(mine) :]
        yield "".join(_Strip(timeline, mine, number, begin, end, longest, top, units).draw(drawn, limits))


def _without(piece: Points, others: Iterable[Points]) -> Iterator[Points]:
    """The parts of a curve that lie where the others have nothing."""
    part: Points = []
    covered = [(other[0][0], other[-1][0]) for other in others]
    for point in piece:
        if any(begin < point[0] < end for begin, end in covered):
            if part:
                yield [*part, point]
            part = []
        else:
            part.append(point)
    if part:
        yield part


class _Strip:
    """One strip: from time and temperature to places in the picture."""

    def __init__(
        self,
        timeline: Timeline,
        findings: list[tuple[int, Finding]],
        number: int,
        begin: float,
        end: float,
        longest: float,
        top: float,
        units: Units,
    ) -> None:
        self._timeline = timeline
        self._findings = findings
        self._number = number
        self._begin, self._end = begin, end
        self._clock = timeline.state.clock
        self._per_second = (WIDTH - _LEFT - _RIGHT) / longest
        self._units = units
        self._line_every, room = (400, 40) if units.fahrenheit else (200, 20)
        half = self._line_every // 2
        self._top = -(-(units.to_degrees(top) + room) // half) * half
        self._right = self._x(end)
        wanted = longest / _MOST_TICKS
        self._tick = next((tick for tick in _TICKS if tick >= wanted), _TICKS[-1])

    def draw(self, drawn: list[DrawnCurve], limits: list[LimitStretch]) -> Iterator[str]:
        wall = self._timeline.kept.header.wall_time(self._begin)
        label = f"Trace from {self._spoken(self._begin)} to {self._spoken(self._end)}, begun at {wall:%H:%M}"
        width = max(self._right + _RIGHT, 300.0)
        yield f'<svg viewBox="0 0 {width:.0f} {HEIGHT:.0f}" style="width:{100 * width / WIDTH:.2f}%" role="img">'
        yield f"<title>{escape(label)}</title>"
        yield f'<clipPath id="plot{self._number}"><rect x="{_LEFT:g}" y="{_TOP:g}" '
        yield f'width="{max(0.0, self._right - _LEFT):.1f}" height="{_BOTTOM - _TOP:g}"/></clipPath>'
        yield from self._heats()
        yield from self._grid()
        yield from self._steps()
        yield f'<g clip-path="url(#plot{self._number})">'
        yield from self._limits(limits)
        for curve in drawn:
            for piece in curve.pieces:
                yield from self._curve(curve.kind, piece)
        yield "</g>"
        yield from self._calls()
        yield from self._notes()
        yield from self._stands_out()
        yield "</svg>"

    def _spoken(self, at: float) -> str:
        return show_duration(self._clock(at))

    def _x(self, at: float) -> float:
        return _LEFT + (min(max(at, self._begin), self._end) - self._begin) * self._per_second

    def _y(self, value: float) -> float:
        """Where a temperature lies [K]."""
        return _BOTTOM - min(max(self._units.to_degrees(value) / self._top, 0.0), 1.0) * (_BOTTOM - _TOP)

    def _shows(self, began: float, ended: float) -> bool:
        return ended > self._begin and began < self._end

    def _heats(self) -> Iterator[str]:
        for began, ended, heat in shaded_spans(self._timeline.spans):
            if not self._shows(began, ended):
                continue
            left, right = self._x(began), self._x(ended)
            yield f'<rect class="heat" x="{left:.1f}" y="{_TOP:g}" width="{right - left:.1f}" '
            yield f'height="{_BOTTOM - _TOP:g}"/>'
            yield f'<text class="tally" x="{(left + right) / 2:.1f}" y="{_HEATS_AT:g}">{heat}</text>'

    def _grid(self) -> Iterator[str]:
        for value in range(0, round(self._top) + 1, self._line_every):
            y = self._y(self._units.from_degrees(value))
            kind = "base" if value == 0 else "line"
            yield f'<path class="{kind}" d="M{_LEFT:g} {y:.1f}H{self._right:.1f}"/>'
            yield f'<text class="scale" x="{_LEFT - 7:g}" y="{y + 4:.1f}">{value}</text>'
        yield f'<text class="scale" x="{_LEFT - 7:g}" y="{_TOP - 10:g}">{on_paper(self._units.degree)}</text>'
        # No break lies in a strip: whatever was before it, the clock goes on evenly.
        began, ended = self._clock(self._begin), self._clock(self._end)
        at = -(-began // self._tick) * self._tick
        while at <= ended:
            x = self._x(self._begin + at - began)
            yield f'<path class="tick" d="M{x:.1f} {_BOTTOM:g}v4"/>'
            yield f'<text class="clock" x="{x:.1f}" y="{_CLOCK_AT:g}">{show_clock(at)}</text>'
            at += self._tick

    def _steps(self) -> Iterator[str]:
        for began, ended, step in _stretches(self._timeline.spans):
            if not self._shows(began, ended):
                continue
            left, right = self._x(began), self._x(ended)
            title = on_paper(in_units(self._timeline.title(step), self._units))
            room = int((right - left - 8) / _LETTER)
            full = f"{step + 1} {title}".strip()
            shown = full if len(full) <= room else f"{full[: room - 1].rstrip()}…" if room > 8 else str(step + 1)
            yield f"<g><title>{in_markup(full)}</title>"
            yield f'<path class="step" d="M{left:.1f} {_TOP:g}v-8H{max(left, right - 2):.1f}"/>'
            if room >= len(shown):
                yield f'<text class="step" x="{left + 4:.1f}" y="{_TOP - 13:g}">{in_markup(shown)}</text>'
            yield "</g>"

    def _limits(self, limits: list[LimitStretch]) -> Iterator[str]:
        named: dict[str, float] = {}
        for limit in limits:
            if not self._shows(limit.began, limit.ended):
                continue
            y, left, right = self._y(limit.kelvin), self._x(limit.began), self._x(limit.ended)
            kind = limit.name.replace(" ", "-")
            yield f'<path class="limit {kind}" d="M{left:.1f} {y:.1f}H{right:.1f}"/>'
            if named.get(limit.name) != limit.kelvin and right - left > 66:
                named[limit.name] = limit.kelvin
                said = f"{limit.name} {self._units.degrees(limit.kelvin)}"
                crowded = any(
                    0 < other.kelvin - limit.kelvin < _CROWDED for other in limits if other.began == limit.began
                )
                down = 12 if crowded or limit.name == "cold" else -4
                yield f'<text class="limit {kind}" x="{left + 4:.1f}" y="{y + down:.1f}">{said}</text>'

    def _curve(self, kind: str, piece: Points) -> Iterator[str]:
        points = list(_inside(piece, self._begin, self._end))
        if len(points) < 2:
            return
        # Not held to the strip here: a line that leaves it must leave it at its own slope.
        places = (f"{_LEFT + (at - self._begin) * self._per_second:.1f} {self._y(value):.1f}" for at, value in points)
        yield f'<path class="curve {kind}" d="M{"L".join(places)}"/>'

    def _calls(self) -> Iterator[str]:
        for number, called in enumerate(self._timeline.state.calls):
            if self._begin <= called.at <= self._end:
                y = _TOP + 10 if called.kelvin is None else self._y(called.kelvin)
                yield f'<g transform="translate({self._x(called.at):.1f} {y:.1f})">'
                said = self._said(called, number in self._timeline.taken_back)
                yield f"<title>{escape(said)}</title>{call_mark(called.call)}</g>"

    def _said(self, called: Called, taken_back: bool) -> str:
        text = call_text(called, self._units, place=False, taken_back=taken_back)
        return f"{show_clock(self._clock(called.at))} {on_paper(text)}"

    def _notes(self) -> Iterator[str]:
        for number, note in enumerate(self._timeline.state.notes, 1):
            if self._begin <= note.at <= self._end:
                yield f'<g transform="translate({self._x(note.at):.1f} {_BOTTOM - 12:g})">'
                yield f'<title>{in_markup(note.text)}</title><circle class="note" r="8"/>'
                yield f'<text class="note" y="3.5">{number}</text></g>'

    def _stands_out(self) -> Iterator[str]:
        """Numbered as in the list, which leads here; at the top, where one is in another's way further down."""
        row, taken = 0, -inf
        for number, one in self._findings:
            x, text = self._x(one.at), in_markup(on_paper(one.text(self._units)))
            row = row + 1 if x - taken < _MARK else 0
            taken, y = x, _TOP + 9 + row * _MARK
            yield f'<g id="{finding_mark(number)}" transform="translate({x:.1f} {y:g})"><title>{text}</title>'
            yield f'<path class="finding" d="M0 8V{_BOTTOM - y:g}M-8-8H8V8H-8Z"/>'
            yield f'<text class="finding" y="3.5">{number}</text></g>'


def _inside(piece: Points, begin: float, end: float) -> Iterator[tuple[float, float]]:
    """The points between two times, and the next one on each side."""
    for index, (at, value) in enumerate(piece):
        follows = index + 1 < len(piece) and piece[index + 1][0] >= begin
        comes_after = index > 0 and piece[index - 1][0] <= end
        if begin <= at <= end or (at < begin and follows) or (at > end and comes_after):
            yield at, value


def _stretches(spans: Iterable[PhaseSpan]) -> list[tuple[float, float, int]]:
    """Each stretch of one step: from, to [s], and the step from 0."""
    found: list[tuple[float, float, int]] = []
    for span in spans:
        joins = bool(found) and found[-1][2] == span.step
        began = found.pop()[0] if joins else span.began
        found.append((began, span.ended, span.step))
    return found
