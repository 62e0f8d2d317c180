"""The reckoning of a double edge's four bevels: where the ridge lies, and which face to grind next until all agree."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from plans.bench import (
    AGREE,
    BEVELS,
    BenchError,
    Cut,
    DoubleEdge,
    Measured,
    bevels_drawn,
    clear_decarb,
    ground,
    next_cut,
    section_of,
    until_even,
)
from plans.reckoned import Reckoned
from plans.reckoner.errors import ReckonError
from plans.reckoner.figures import Fact, Figure, Given, given
from plans.reckoner.kinds import LENGTH, THIN
from plans.reckoner.reckoning import Reckoning
from plans.units import Shown, Units, both

READING = 0.1e-3
"""How far a caliper on a ridge may be off, either way: common practice, no source [m]."""
PLANE = "plane geometry"
"""Source of what is drawn and reckoned at the bench."""
_PLANE = "of a section with flat faces and edges square to its middle"
_CAUTION = (
    "local codes come first; glasses and a dust mask, nobody behind the wheel or the belt; edge down and away from its "
    "run; cool before it is too hot to hold, or a temper is lost"
)


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
) -> Reckoning:
    """Where the ridge of a double edge lies, which bevel to grind next, and how deep, until all four agree.

    Args:
        widths: of the four bevels along their faces: front to the first edge, front to the second, back to the first,
            back to the second [m]
        edges: thickness of the first edge and of the second [m]
        ridge: thickness at the ridge [m]
        within: widths that differ by no more agree [m]
        decarb: depth that is to be ground off every face, its `most` where it has one: a depth that was measured, or
            what `plans.steel.grinding_allowance` says; not asked without it [m]

    Raises:
        ReckonError: there are not four widths and two edges, or they make no section; or a depth is none that can be.
    """
    measured = _measured(widths, edges, ridge)
    if not 1e-5 <= within <= 0.01:
        raise ReckonError("within", "give from 0.01 to 10 mm, e.g. 0.2 mm")
    section = _section(measured)
    try:
        steps = list(until_even(section, within))
    except BenchError as error:
        raise ReckonError(error.given, str(error)) from None
    found: list[Figure | Fact] = [
        Figure("ridge_offset_mm", "ridge off the middle", _offset(section.offset), THIN),
        *_next(measured, section, within),
        *_then(section, steps),
        *(
            Figure(f"{name}_ridge_offset_mm", f"{name} ridge off", _offset(offset), THIN)
            for name, offset in zip(("front", "back"), section.offsets, strict=True)
        ),
        Figure("width_mm", "edge to edge", _exact(section.width), LENGTH),
    ]
    asked = _asked(measured, within)
    if decarb is not None:
        found += _cleared(section, decarb)
    found.append(caution())
    return Reckoning("bevels", asked, tuple(found), drawing=bevels_drawn(section, next_cut(section, within)))


def _measured(widths: tuple[float, ...], edges: tuple[float, ...], ridge: float) -> Measured:
    if len(widths) != 4:
        raise ReckonError("widths", f'give four, e.g. "14.2,13.1,14.0,13.6 mm": {", ".join(BEVELS)}')
    if len(edges) != 2:
        raise ReckonError("edges", 'give two, that of the first edge and that of the second, e.g. "1.1,0.9 mm"')
    one, two, three, four = widths
    return Measured((one, two, three, four), (edges[0], edges[1]), ridge)


def _section(measured: Measured) -> DoubleEdge:
    try:
        return section_of(measured)
    except BenchError as error:
        raise ReckonError(error.given, str(error)) from None


def _asked(measured: Measured, within: float) -> tuple[Given, ...]:
    return (
        Given("widths_mm", _kept(measured.widths), lambda units: f"bevels {_listed(measured.widths, units)}"),
        Given("edges_mm", _kept(measured.edges), lambda units: f"edges {_listed(measured.edges, units)}"),
        given("ridge_mm", "ridge", measured.ridge, LENGTH),
        given("within_mm", "alike within", within, THIN),
    )


def _kept(lengths: tuple[float, ...]) -> list[float]:
    return [THIN.record(length) for length in lengths]


def _listed(lengths: tuple[float, ...], units: Units) -> str:
    return ", ".join(
        THIN.text(length, units) if length < READING * 99 else LENGTH.text(length, units) for length in lengths
    )


def _offset(value: float) -> Reckoned:
    def said(units: Units) -> str:
        return (
            "across the blade, towards the second edge; below zero towards the first; the range is a caliper that is "
            f"off by {units.depth(READING)} at each bevel; {_PLANE}"
        )

    return Reckoned(value, "arithmetic", said, PLANE, value - READING, value + READING)


def _exact(value: float) -> Reckoned:
    return Reckoned(value, "arithmetic", _PLANE, PLANE)


def _next(measured: Measured, section: DoubleEdge, within: float) -> list[Figure | Fact]:
    """Which face is next, and how deep."""
    cut = next_cut(section, within)
    if cut is None:
        none: Shown = lambda units: f"nothing: all four agree within {units.depth(within)}"  # noqa: E731
        return [
            Fact("next_face", "grind next", None, "none, they agree", "arithmetic", _PLANE, PLANE),
            Figure("take_off_mm", "take off", None, THIN, none),
        ]
    name = BEVELS[cut.bevel]
    said = "the narrower of two neighbours grows wider as it is ground, and its neighbour narrower"
    least, most = (_depth(measured, cut, within, error) for error in (READING, -READING))
    parallel = ground(section, replace(cut, at_edge=cut.at_ridge)).edges[cut.bevel % 2]
    return [
        Fact("next_face", "grind next", name, name, "arithmetic", f"{said}; {_PLANE}", PLANE),
        Figure(
            "take_off_mm",
            "take off at the ridge",
            Reckoned(cut.at_ridge, "arithmetic", _deep, PLANE, least, most),
            THIN,
        ),
        Figure("at_edge_mm", "take off at the edge", _exact(cut.at_edge), THIN),
        Figure("edge_parallel_mm", "edge if ground parallel", _exact(max(parallel, 0.0)), THIN),
    ]


def _deep(units: Units) -> str:
    return (
        "square to the face, running out evenly to what is taken at the edge; take half, measure again; the range is a "
        f"caliper that is off by {units.depth(READING)}; where a whole face is to be lowered, hold both ridges against "
        "a flat plate first: widths tell little of heights"
    )


def _depth(measured: Measured, cut: Cut, within: float, error: float) -> float:
    """How deep the cut would be, were its bevel wider by so much and its neighbour narrower; 0 where there is none."""
    widths = list(measured.widths)
    widths[cut.bevel] += error
    widths[cut.bevel ^ 1] -= error
    one, two, three, four = widths
    try:
        other = next_cut(section_of(replace(measured, widths=(one, two, three, four))), within)
    except BenchError:
        return cut.at_ridge
    return other.at_ridge if other is not None and other.bevel == cut.bevel else 0.0


def _then(section: DoubleEdge, steps: Sequence[tuple[Cut, DoubleEdge]]) -> list[Figure | Fact]:
    """Every cut, and what stays after the last."""
    last = steps[-1][1] if steps else section
    cuts = [cut for cut, _ in steps]

    def listed(units: Units) -> str:
        return "; ".join(f"{BEVELS[cut.bevel]}: {units.depth(cut.at_ridge)}" for cut in cuts) or "none"

    kept = [
        {"face": BEVELS[cut.bevel], "at_ridge_mm": THIN.record(cut.at_ridge), "at_edge_mm": THIN.record(cut.at_edge)}
        for cut in cuts
    ]
    widths = last.widths
    return [
        Fact("cuts", "all cuts", kept, listed, "arithmetic", "at the ridge, one after the other", PLANE),
        Fact(
            "widths_then_mm",
            "bevels then",
            _kept(widths),
            lambda units: _listed(widths, units),
            "arithmetic",
            _PLANE,
            PLANE,
        ),
        Figure("ridge_then_mm", "ridge then", _exact(last.ridge), LENGTH),
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
        Figure("cleared_ridge_mm", "ridge without decarb", known, LENGTH),
        *(
            Figure(f"cleared_{name}_edge_mm", f"{name} edge without it", replace(known, value=edge), THIN)
            for name, edge in zip(names, left.edges, strict=True)
        ),
        *(
            Figure(f"{name}_edge_moves_in_mm", f"{name} edge moves in", replace(known, value=back), THIN)
            for name, back in zip(names, left.narrower, strict=True)
        ),
    ]
