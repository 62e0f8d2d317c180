"""The trace of a sitting as pictures for a page: SVG strips with heats shaded, limits and calls marked."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from html import escape
from math import inf

from plans.logbook.exports.curves import CURVES, DrawnCurve, inside
from plans.logbook.exports.holds import left_out
from plans.logbook.exports.labels import LINE, Box, Room, around, dense
from plans.logbook.exports.marks import call_mark
from plans.logbook.exports.strips import LimitStretch, limit_stretches, strips
from plans.logbook.exports.tables import finding_mark
from plans.logbook.exports.writing import in_markup, on_paper
from plans.logbook.figures import Finding
from plans.logbook.lines import call_text
from plans.logbook.reviewing import LookingBack, Timeline
from plans.logbook.thinning import Points
from plans.prose import in_units
from plans.shown import show_clock, show_duration
from plans.sitting import Called, PhaseSpan, shaded_spans
from plans.units import Units, kelvin

WIDTH, HEIGHT = 880.0, 244.0
"""Size of a strip that is as long as any, in units of the picture; across a printed page, 12 of them are 7 pt."""
_LEFT, _RIGHT, _TOP, _BOTTOM = 46.0, 24.0, 30.0, 200.0
"""The plot, inside the picture."""
_HEATS_AT = _BOTTOM + 15.0
_CLOCK_AT = _BOTTOM + 34.0
_TICKS = (5.0, 10.0, 15.0, 30.0, 60.0, 120.0, 300.0, 600.0, 900.0, 1800.0, 3600.0, 7200.0, 14400.0, 43200.0)
_MOST_TICKS = 10
_LETTER = 6.9
"""Width of a letter, about; a wide font has no more."""
_MARK = 18.0
"""Room that the mark of a finding takes."""
_AHEAD = 12.0
"""So far on is looked each time for where the name of a limit is in nothing's way."""


def pictures(back: LookingBack, drawn: list[DrawnCurve], units: Units) -> Iterator[str]:
    """The sitting as SVG, one strip after the other, all on the same scale."""
    timeline = back.timeline
    limits = limit_stretches(timeline)
    values = [value for curve in drawn for piece in curve.pieces for _, value in piece]
    top = max([*values, *(limit.kelvin for limit in limits), kelvin(900.0)])
    skipped = left_out(back, drawn)
    parts, longest = strips(timeline, [(one.began, one.ended) for one in skipped])
    waiting = sorted(enumerate(back.findings, 1), key=lambda numbered: numbered[1].at)
    for number, (begin, end) in enumerate(parts, 1):
        yield from (one.line(back, units) for one in skipped if one.ended == begin)
        mine = [numbered for numbered in waiting if numbered[1].at <= end]
        waiting = waiting[len(mine) :]
        yield "".join(_Strip(timeline, mine, number, begin, end, longest, top, units).draw(drawn, limits))


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
        yield f"<desc>{in_markup(self._described(drawn))}</desc>"
        yield f'<clipPath id="plot{self._number}"><rect x="{_LEFT:g}" y="{_TOP:g}" '
        yield f'width="{max(0.0, self._right - _LEFT):.1f}" height="{_BOTTOM - _TOP:g}"/></clipPath>'
        yield from self._heats()
        yield from self._grid()
        yield from self._steps()
        mine = [limit for limit in limits if self._shows(limit.began, limit.ended)]
        yield f'<g clip-path="url(#plot{self._number})">'
        yield from self._limits(mine)
        for curve in drawn:
            for piece in curve.pieces:
                yield from self._curve(curve.kind, piece)
        yield "</g>"
        yield from self._limit_names(mine, drawn)
        yield from self._calls()
        yield from self._notes()
        yield from self._stands_out()
        yield "</svg>"

    def _described(self, drawn: list[DrawnCurve]) -> str:
        """The strip for who hears the page: which steps, and between what temperatures its curves lie."""
        steps = dict.fromkeys(
            step for began, ended, step in _stretches(self._timeline.spans) if self._shows(began, ended)
        )
        names = (f"{step + 1} {on_paper(in_units(self._timeline.title(step), self._units))}" for step in steps)
        said = [f"Steps: {', '.join(names)}."] if steps else []
        for curve in reversed(drawn):
            values = [value for piece in curve.pieces for at, value in piece if self._begin <= at <= self._end]
            if values:
                least, most = self._units.degrees(min(values)), on_paper(self._units.temperature(max(values)))
                said.append(f"{CURVES[curve.kind].capitalize()}: {least} to {most}.")
        return " ".join(said)

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
        for limit in limits:
            y, left, right = self._y(limit.kelvin), self._x(limit.began), self._x(limit.ended)
            yield f'<path class="limit {_kind(limit)}" d="M{left:.1f} {y:.1f}H{right:.1f}"/>'

    def _limit_names(self, limits: list[LimitStretch], drawn: list[DrawnCurve]) -> Iterator[str]:
        """Each beside its line, where nothing is in its way; none where it would be longer than its line."""
        room = self._taken(limits, drawn)
        named: dict[str, float] = {}
        # Of those that begin at once the highest first: it has the place above, which the next one's line lies below.
        for limit in sorted(limits, key=lambda one: (one.began, -one.kelvin)):
            said = f"{limit.name} {self._units.degrees(limit.kelvin)}"
            y, left, right = self._y(limit.kelvin), self._x(limit.began) + 4, self._x(limit.ended)
            long = _LETTER * len(said)
            steps = int((right - left - long) // _AHEAD)
            if named.get(limit.name) == limit.kelvin or steps < 0:
                continue
            bases = (y + LINE, y - 4) if limit.name == "cold" else (y - 4, y + LINE)
            starts = [left + number * _AHEAD for number in range(steps + 1)]
            places = [Box(x, base - LINE + 3, x + long, base + 2) for x in starts for base in bases]
            place = room.place(places)
            named[limit.name] = limit.kelvin
            yield f'<text class="limit {_kind(limit)}" x="{place.left:.1f}" y="{place.bottom - 2:.1f}">{said}</text>'

    def _taken(self, limits: list[LimitStretch], drawn: list[DrawnCurve]) -> Room:
        """What names have to leave free: lines, marks, and the curve that lies on top."""
        room = Room()
        for limit in limits:
            y = self._y(limit.kelvin)
            room.take(Box(self._x(limit.began), y - 0.5, self._x(limit.ended), y + 0.5), is_line=True)
        for x, y in (*self._finding_places(), *self._call_places()):
            room.take(around(x, y, _MARK / 2))
        for curve in drawn[-2:]:
            for piece in curve.pieces:
                for x, y in dense([(self._x(at), self._y(value)) for at, value in self._inside(piece)]):
                    room.take(around(x, y, 1.0), is_line=True)
        return room

    def _curve(self, kind: str, piece: Points) -> Iterator[str]:
        points = self._inside(piece)
        if len(points) < 2:
            return
        # Not held to the strip here: a line that leaves it must leave it at its own slope.
        places = (f"{_LEFT + (at - self._begin) * self._per_second:.1f} {self._y(value):.1f}" for at, value in points)
        yield f'<path class="curve {kind}" d="M{"L".join(places)}"/>'

    def _inside(self, piece: Points) -> Points:
        return list(inside(piece, self._begin, self._end))

    def _call_places(self) -> Iterator[tuple[float, float]]:
        for called in self._timeline.state.calls:
            if self._begin <= called.at <= self._end:
                yield self._place(called)

    def _place(self, called: Called) -> tuple[float, float]:
        return self._x(called.at), _TOP + 10 if called.kelvin is None else self._y(called.kelvin)

    def _calls(self) -> Iterator[str]:
        for number, called in enumerate(self._timeline.state.calls):
            if self._begin <= called.at <= self._end:
                x, y = self._place(called)
                yield f'<g transform="translate({x:.1f} {y:.1f})">'
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
                yield f'<text class="note" y="4">{number}</text></g>'

    def _stands_out(self) -> Iterator[str]:
        """Numbered as in the list, which leads here; at the top, where one is in another's way further down."""
        for (number, one), (x, y) in zip(self._findings, self._finding_places(), strict=True):
            text = in_markup(on_paper(one.text(self._units)))
            yield f'<g id="{finding_mark(number)}" transform="translate({x:.1f} {y:g})"><title>{text}</title>'
            yield f'<path class="finding" d="M0 8V{_BOTTOM - y:g}M-8-8H8V8H-8Z"/>'
            yield f'<text class="finding" y="4">{number}</text></g>'

    def _finding_places(self) -> Iterator[tuple[float, float]]:
        row, taken = 0, -inf
        for _, one in self._findings:
            x = self._x(one.at)
            row = row + 1 if x - taken < _MARK else 0
            taken = x
            yield x, _TOP + 9 + row * _MARK


def _kind(limit: LimitStretch) -> str:
    return limit.name.replace(" ", "-")


def _stretches(spans: Iterable[PhaseSpan]) -> list[tuple[float, float, int]]:
    """Each stretch of one step: from, to [s], and the step from 0."""
    found: list[tuple[float, float, int]] = []
    for span in spans:
        joins = bool(found) and found[-1][2] == span.step
        began = found.pop()[0] if joins else span.began
        found.append((began, span.ended, span.step))
    return found
