"""The reckoning of a double edge's four bevels: where the ridge lies, and which face to grind next until all agree."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import cache

from plans.bench import (
    AGREE,
    BEVELS,
    BenchError,
    Cut,
    DoubleEdge,
    Measured,
    Told,
    as_deep_on,
    bevels_drawn,
    clear_decarb,
    ground,
    next_cut,
    told_by,
    until_even,
)
from plans.reckoned import Reckoned
from plans.reckoner.errors import ReckonError
from plans.reckoner.figures import Fact, Figure, Given, given, given_list, listed
from plans.reckoner.kinds import THIN, TYPED_LENGTH, WIDTH
from plans.reckoner.reckoning import Reckoning
from plans.units import Shown, Units, both

READING = 0.1e-3
"""How far a caliper on a ridge may be off, either way: common practice, no source [m]."""
PLANE = "plane geometry"
"""Source of what is drawn and reckoned at the bench."""
_PLANE = "of a section with flat faces and edges square to its middle"
_PLATE = (
    "lay the blade with its edges on two equal strips on a flat plate, the lower ridge free in the gap; read how high "
    "the upper ridge stands above the strips; turn it over, read again; give both as heights"
)
_CAUTION = (
    "local codes come first; glasses and a dust mask, nobody behind the wheel or the belt; edge down and away from its "
    "run; cool before it is too hot to hold, or a temper is lost"
)
_FINEST = 0.1
"""A figure is no finer than this share of what a reading may be off."""


def caution() -> Fact:
    """What is said where something is ground."""
    return Fact(
        "caution", "caution", _CAUTION, "local codes first", "common practice", _CAUTION, "common practice, no source"
    )


def reckon_bevels(
    widths: tuple[float, ...],
    edges: tuple[float, ...],
    ridge: float,
    within: float = AGREE,
    decarb: Reckoned | None = None,
    heights: tuple[float, ...] | None = None,
) -> Reckoning:
    """Where the ridge of a double edge lies, which bevel to grind next, and how deep, until all four agree.

    A whole face is lowered only where the heights were measured: widths tell too little of them. Every range is that of
    readings off by `READING`, or by half of `within` where that is finer.

    Args:
        widths: of the four bevels along their faces: front to the first edge, front to the second, back to the first,
            back to the second [m]
        edges: thickness of the first edge and of the second [m]
        ridge: thickness at the ridge [m]
        within: widths, and edges, that differ by no more agree [m]
        decarb: depth that is to be ground off every face, its `most` where it has one: a depth that was measured, or
            what `plans.steel.grinding_allowance` says; not asked without it [m]
        heights: of the front's ridge and of the back's above two strips that both edges lie on; None where they were
            not measured [m]

    Raises:
        ReckonError: there are not four widths and two edges, or they make no section; or a depth is none that can be.
    """
    if not 1e-5 <= within <= 0.01:
        raise ReckonError("within", "give from 0.01 to 10 mm, e.g. 0.2 mm")
    measured = _measured(widths, edges, ridge, heights)
    error = min(READING, within / 2)
    try:
        told = told_by(measured, error)
        cut = next_cut(told.section, within, lower=told.heights_known)
        steps = list(until_even(told.section, within, lower=told.heights_known))
    except BenchError as wrong:
        raise ReckonError(wrong.given, str(wrong)) from None
    ranged = _Ranged(told, error)
    found: list[Figure | Fact] = [
        *(_none(measured, told, within, error) if cut is None else _next(ranged, cut, within)),
        Figure("ridge_offset_mm", "ridge off the middle", ranged.figure(lambda one: one.offset, _TOWARDS), THIN),
        *_then(ranged, steps, within),
        *_lie(ranged),
    ]
    if decarb is not None:
        found += _cleared(told.section, decarb)
    found.append(caution())
    asked = _asked(measured, heights, within)
    return Reckoning("bevels", asked, tuple(found), drawing=bevels_drawn(told.section, measured, cut))


_TOWARDS = "across the blade, towards the second edge; below zero towards the first"


class _Ranged:
    """Figures of a section, each with what readings that are off make of it."""

    def __init__(self, told: Told, error: float) -> None:
        self.told, self._error = told, error

    def figure(self, of: Callable[[DoubleEdge], float], said: str = "", *, least: float | None = None) -> Reckoned:
        """A figure of the section, its range that of all sections that the readings allow.

        Args:
            of: the figure [m]
            said: what it is counted from, where that needs telling
            least: below which it can't be, e.g. 0
        """

        def validity(units: Units) -> str:
            off = f"the range is a caliper that is off by {units.depth(self._error)} at each reading; {_PLANE}"
            return f"{said}; {off}" if said else off

        finest = self._error * _FINEST
        value, low, high = (
            round((length if least is None else max(length, least)) / finest) * finest
            for length in (of(self.told.section), *self.told.ends(of))
        )
        return Reckoned(value, "arithmetic", validity, PLANE, low, high)


def _measured(
    widths: tuple[float, ...], edges: tuple[float, ...], ridge: float, heights: tuple[float, ...] | None
) -> Measured:
    if len(widths) != 4:
        raise ReckonError("widths", f'give four, e.g. "14.2,13.1,14.0,13.6 mm": {", ".join(BEVELS)}')
    if len(edges) != 2:
        raise ReckonError("edges", 'give two, that of the first edge and that of the second, e.g. "1.1,0.9 mm"')
    one, two, three, four = widths
    measured = Measured((one, two, three, four), (edges[0], edges[1]), ridge)
    return measured if heights is None else replace(measured, higher=_higher(measured, heights))


def _higher(measured: Measured, heights: tuple[float, ...]) -> float:
    """How much higher the front's ridge stands, by readings that each have half of an edge below the middle."""
    if len(heights) != 2:
        raise ReckonError("heights", f'give two, the front up and the back up, e.g. "3.6,3.6 mm": {_PLATE}')
    # Either side of the middle lies half of an edge once and a ridge once: four readings, each a little off.
    wanted = measured.ridge + sum(measured.edges) / 2
    if abs(sum(heights) - wanted) > 5 * READING:
        both_of_them = both(lambda units: f"{units.exact_length(sum(heights))} in place of {units.width(wanted)}")
        raise ReckonError("heights", f"together they make {both_of_them}, the ridge and an edge: {_PLATE}")
    return heights[0] - heights[1]


def _asked(measured: Measured, heights: tuple[float, ...] | None, within: float) -> tuple[Given, ...]:
    return (
        given_list("widths_mm", "bevels", measured.widths, TYPED_LENGTH),
        given_list("edges_mm", "edges", measured.edges, TYPED_LENGTH),
        given("ridge_mm", "ridge", measured.ridge, TYPED_LENGTH),
        *(() if heights is None else (given_list("heights_mm", "ridges above the strips", heights, TYPED_LENGTH),)),
        given("within_mm", "alike within", within, TYPED_LENGTH),
    )


def _none(measured: Measured, told: Told, within: float, error: float) -> list[Figure | Fact]:
    """Why nothing is ground: all agree, or what was measured tells no more."""
    widths = measured.widths
    if told.heights_known or max(widths) - min(widths) <= within + _FINEST * error:
        label, text = "none: all four agree", "none, they agree"
        why: Shown = lambda units: f"all four agree within {units.depth(within)}, as far as a caliper tells"  # noqa: E731
    else:
        label, text = "none yet: measure heights", "none yet: hold both ridges against a flat plate"
        why = _unsure(told, error)
    return [
        Figure("take_off_mm", label, None, THIN, why),
        Fact("next_face", "grind next", None, text, "arithmetic", why, ""),
    ]


def _unsure(told: Told, error: float) -> Shown:
    def said(units: Units) -> str:
        return (
            "hold both ridges against a flat plate: the two bevels of each face agree, those of the front and of the "
            f"back do not, but widths tell little of heights: with readings off by {units.depth(error)} "
            f"{_apart(*told.higher, units)}; {_PLATE}"
        )

    return said


def _apart(low: float, high: float, units: Units) -> str:
    """Which ridge may stand how much higher, between how much the front's does at least and at most."""
    if low >= 0 or high <= 0:
        one, other = ("front", "back") if low >= 0 else ("back", "front")
        least, most = sorted((abs(low), abs(high)))
        return f"the {one}'s ridge may stand from {units.depth(least)} to {units.depth(most)} above the {other}'s"
    return f"either ridge may be higher, the front's by {units.depth(high)}, the back's by {units.depth(-low)}"


def _next(ranged: _Ranged, cut: Cut, within: float) -> list[Figure | Fact]:
    """Which face is next, and how deep."""
    name = BEVELS[cut.bevel]
    said = (
        "its ridge stands higher than the other, as was measured"
        if cut.lowers
        else "the narrower of two neighbours grows wider as it is ground, and its neighbour narrower"
    )
    deep = (
        "at the ridge, square to the face, running out evenly to what is taken at the edge; take half of it and "
        "measure again"
    )
    on = cache(lambda one: as_deep_on(one, cut, within))

    def parallel(one: DoubleEdge) -> float:
        depth = on(one).at_ridge
        return ground(one, Cut(cut.bevel, depth, depth)).edges[cut.bevel % 2]

    return [
        Figure(
            "take_off_mm",
            f"take off {name}",
            ranged.figure(lambda one: on(one).at_ridge, deep),
            THIN,
        ),
        Fact("next_face", "grind next", name, name, "arithmetic", f"{said}; {_PLANE}", PLANE),
        Figure("at_edge_mm", "off at its edge", ranged.figure(lambda one: on(one).at_edge), THIN),
        Figure("edge_parallel_mm", "edge if ground parallel", ranged.figure(parallel, least=0.0), THIN),
    ]


def _then(ranged: _Ranged, steps: Sequence[tuple[Cut, DoubleEdge]], within: float) -> list[Figure | Fact]:
    """Every cut, and what stays after the last."""
    told = ranged.told
    cuts = [cut for cut, _ in steps]

    def last(one: DoubleEdge) -> DoubleEdge:
        try:
            return [one, *(after for _, after in until_even(one, within, lower=told.heights_known))][-1]
        except BenchError:  # too far from what was measured to be evened
            return last(told.section)

    def shown(units: Units) -> str:
        return "; ".join(f"{BEVELS[cut.bevel]}: {units.depth(cut.at_ridge)}" for cut in cuts) or "none"

    kept = [
        {"face": BEVELS[cut.bevel], "at_ridge_mm": THIN.record(cut.at_ridge), "at_edge_mm": THIN.record(cut.at_edge)}
        for cut in cuts
    ]
    said = "at the ridge, one after the other; all but the first go by what was measured before it: measure after each"
    widths = last(told.section).widths
    return [
        Fact("cuts", "all cuts", kept, shown, "arithmetic", said, PLANE),
        listed("widths_then_mm", "bevels then", widths, WIDTH, "arithmetic", _PLANE, PLANE),
        Figure("ridge_then_mm", "ridge then", ranged.figure(lambda one: last(one).ridge), WIDTH),
    ]


def _lie(ranged: _Ranged) -> list[Figure | Fact]:
    """How the ridges lie, each by itself."""
    higher = "above the middle of both edges; below zero the back's stands higher; " + (
        "as measured" if ranged.told.heights_known else "counted as alike as far as the widths allow"
    )
    return [
        Figure("front_ridge_offset_mm", "front ridge off", ranged.figure(lambda one: one.offsets[0], _TOWARDS), THIN),
        Figure("back_ridge_offset_mm", "back ridge off", ranged.figure(lambda one: one.offsets[1], _TOWARDS), THIN),
        Figure(
            "front_higher_mm",
            "front ridge higher by",
            ranged.figure(lambda one: one.front.height - one.back.height, higher),
            THIN,
        ),
        Figure("width_mm", "edge to edge", ranged.figure(lambda one: one.width), WIDTH),
    ]


def _cleared(section: DoubleEdge, decarb: Reckoned) -> list[Figure | Fact]:
    depth = decarb.value if decarb.most is None else decarb.most
    if not 0 < depth < section.ridge / 2:
        text = both(lambda units: units.depth(depth))
        raise ReckonError("decarb", f"{text}: it must be above zero, and below half of the ridge")
    left = clear_decarb(section, depth)
    said = "every bevel and the flats of both edges ground as deep as the decarb may go"
    known = Reckoned(left.ridge, "arithmetic", said, PLANE)
    names = ("first", "second")
    return [
        Figure("clear_mm", "off every face for decarb", replace(decarb, value=depth, least=None, most=None), THIN),
        Figure("cleared_ridge_mm", "ridge without decarb", known, WIDTH),
        *(
            Figure(f"cleared_{name}_edge_mm", f"{name} edge without it", replace(known, value=edge), THIN)
            for name, edge in zip(names, left.edges, strict=True)
        ),
        *(
            Figure(f"{name}_edge_moves_in_mm", f"{name} edge moves in", replace(known, value=back), THIN)
            for name, back in zip(names, left.narrower, strict=True)
        ),
    ]
