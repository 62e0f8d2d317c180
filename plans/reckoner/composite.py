"""The reckonings of bars side by side: where their borders come out, and which bars to start from."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import accumulate

from plans.billets import CONSTANT, Blade, bars_for, borders_of, composite_drawn, shares_of
from plans.reckoned import Reckoned
from plans.reckoner.errors import ReckonError, as_asked
from plans.reckoner.figures import Fact, Figure, Given, given, given_list, listed
from plans.reckoner.kinds import ANGLE, SHARE, TYPED_LENGTH, WIDTH
from plans.reckoner.reckoning import Reckoning
from plans.units import Units

_EVEN = "bars of equal height, struck alike on both faces; a face that is drawn more bows every border"
_GROUND = "bevels ground out of the flat bar; from the first edge"
_FORGED = "bevels wholly forged down: each bar keeps its share of the area"
_BETWEEN = "bevels ground out of the flat bar; the range is to bevels wholly forged down"
_GEOMETRY = "plane geometry"
_SAME = 1e-5
"""Widths that differ by less are one [m]."""


def make_blade(face: float, ridge: float, edge: float, is_double: bool = True) -> Blade:
    """A blade's section, its lengths checked as a question gives them.

    Args:
        face: width from edge to edge, or from edge to spine [m]
        ridge: thickness at the ridge or the spine [m]
        edge: thickness of the edge [m]
        is_double: whether it has two edges with a ridge midway

    Raises:
        ReckonError: a length is none that can be.
    """
    with as_asked():
        return Blade(face, ridge, edge, is_double)


def reckon_composite(
    parts: Sequence[float], face: float | None = None, blade: Blade | None = None, lean: float = 0.0
) -> Reckoning:
    """Each part's share across the face, and where its borders come out, on the flat bar and on the bevels.

    Args:
        parts: widths of the bars side by side, from the first edge on [m]
        face: width that they are drawn to [m]; None for that of the blade, or else as they lie
        blade: the finished section, where its bevels are asked too
        lean: by how much the borders lean towards the second edge, on their way to the front [degrees]

    Raises:
        ReckonError: a width is none that can be, or a border comes out at an edge.
    """
    if len(parts) < 2:
        raise ReckonError("parts", 'give the widths of two bars or more, e.g. "12, 24, 12 mm"')
    with as_asked():
        shares = shares_of(parts)
        wide = blade.face if blade is not None else sum(parts) if face is None else face
        borders = borders_of(parts, wide)
        found = list(_laid(shares, borders, wide, blade))
        if blade is not None:
            found += _on_the_bevels(blade, shares, borders, lean)
    asked = [given_list("parts_mm", "parts", parts, TYPED_LENGTH), *_of_the_face(wide, blade)]
    if lean:
        asked.append(given("lean_degrees", "borders lean", lean, ANGLE))
    drawn = composite_drawn(wide, blade, borders, lean)
    return Reckoning("composite", tuple(asked), tuple(found), drawing=drawn)


def _laid(
    shares: Sequence[float], borders: Sequence[float], wide: float, blade: Blade | None
) -> Iterator[Figure | Fact]:
    forged = _forged(blade, shares) if blade is not None else borders
    yield _from_one("core_mm", "core shows", _core(borders, wide), _core(forged, wide))
    yield _from_one("jacket_mm", "jacket at the edge", borders[0], forged[0])
    yield listed("shares", "share of each", shares, SHARE, "arithmetic", _EVEN, CONSTANT)
    yield listed("borders_mm", "borders across the face", borders, WIDTH, "arithmetic", _GROUND, CONSTANT)


def _core(borders: Sequence[float], wide: float) -> float:
    """What lies between the outermost borders; of two bars the second."""
    return (borders[-1] if len(borders) > 1 else wide) - borders[0]


def _forged(blade: Blade, shares: Sequence[float]) -> tuple[float, ...]:
    return tuple(blade.across_at(share) for share in list(accumulate(shares))[:-1])


def _from_one(key: str, label: str, ground: float, forged: float) -> Figure:
    """A width as ground, with that as forged at the other end of its range."""
    apart = abs(ground - forged) > 1e-9
    ends = (min(ground, forged), max(ground, forged)) if apart else (None, None)
    return Figure(key, label, Reckoned(ground, "arithmetic", _BETWEEN if apart else _EVEN, CONSTANT, *ends), WIDTH)


def _on_the_bevels(
    blade: Blade, shares: Sequence[float], borders: Sequence[float], lean: float
) -> Iterator[Figure | Fact]:
    def lengths(key: str, label: str, values: Sequence[float], validity: str) -> Fact:
        return listed(key, label, values, WIDTH, "arithmetic", validity, _GEOMETRY)

    yield lengths("forged_borders_mm", "borders, bevels forged", _forged(blade, shares), _FORGED)
    fronts, backs = zip(*(blade.out_at(one, lean) for one in borders), strict=True)
    if lean:
        yield lengths("front_borders_mm", "borders on the front", fronts, _GROUND)
        yield lengths("back_borders_mm", "borders on the back", backs, f"{_GROUND}, seen through the blade")
    up = [blade.up_the_bevel(one) for one in fronts]
    yield lengths("up_the_bevel_mm", "up the bevel", up, "on the steel of the front, from the nearer edge")


def reckon_bars(
    blade: Blade,
    core: float | None = None,
    jacket: float | None = None,
    billet: float | None = None,
    trim: float = 0.0,
) -> Reckoning:
    """Which bars to start from, so that the core shows so wide and the edge is jacket for so much.

    Args:
        blade: the finished section
        core: width of the core on the face [m]; None where the jacket says it
        jacket: width of the jacket at each edge [m]; None where the core says it
        billet: width of all bars together [m]; None for as wide as the face with its trim
        trim: what is ground off each edge after forging [m]

    Raises:
        ReckonError: neither core nor jacket is given, both don't make up the face, or a width is none that can be.
    """
    sides = 2 if blade.is_double else 1
    wanted = _wanted_core(blade, core, jacket, sides)
    with as_asked():
        start = bars_for(blade, wanted, trim)
        all_of_it = blade.face + sides * trim if billet is None else billet
        borders = borders_of(start.ground, blade.face + sides * trim)
    from_edge = [one - trim for one in borders]

    def bars(key: str, label: str, shares: tuple[float, ...], validity: str) -> Fact:
        return listed(key, label, [share * all_of_it for share in shares], WIDTH, "arithmetic", validity, CONSTANT)

    jacket_bar, core_bar = (
        [share * all_of_it for share in pair] for pair in zip(start.ground[:2], start.forged[:2], strict=True)
    )
    return Reckoning(
        "composite",
        (
            *_of_the_face(blade.face, blade),
            given("core_mm", "core", wanted, TYPED_LENGTH),
            given("trim_mm", "ground off an edge", trim, TYPED_LENGTH),
            given("billet_mm", "billet", all_of_it, TYPED_LENGTH),
        ),
        (
            _from_one("core_bar_mm", "core to start from", *core_bar),
            _from_one("jacket_bar_mm", "each jacket" if sides == 2 else "jacket to start from", *jacket_bar),
            listed("shares", "share of each", start.ground, SHARE, "arithmetic", _GROUND, CONSTANT),
            listed("borders_mm", "borders across the face", from_edge, WIDTH, "arithmetic", _GROUND, CONSTANT),
            bars("bars_mm", "bars, bevels ground", start.ground, _GROUND),
            bars("forged_bars_mm", "bars, bevels forged", start.forged, _FORGED),
        ),
        drawing=composite_drawn(blade.face, blade, from_edge),
    )


def _wanted_core(blade: Blade, core: float | None, jacket: float | None, sides: int) -> float:
    if core is None and jacket is None:
        raise ReckonError("core", 'say how wide it is to show, e.g. "20 mm", or how much of the edge is jacket')
    if jacket is None:
        assert core is not None
        return core
    left = blade.face - sides * jacket
    if left <= 0:
        raise ReckonError("jacket", "it leaves nothing of the face for the core")
    if core is not None and abs(core - left) > _SAME:

        def said(units: Units) -> str:
            return f"{units.exact_length(left)} of {units.exact_length(blade.face)}"

        raise ReckonError("jacket", f"with it the core shows {Units.METRIC.text(said)}; give core or jacket, not both")
    return left


def _of_the_face(wide: float, blade: Blade | None) -> Iterator[Given]:
    yield given("face_mm", "face", wide, TYPED_LENGTH)
    if blade is not None:
        yield given("ridge_mm", "ridge" if blade.is_double else "spine", blade.ridge, TYPED_LENGTH)
        yield given("edge_mm", "edge", blade.edge, TYPED_LENGTH)
        yield Given("edges", 2 if blade.is_double else 1, "two edges" if blade.is_double else "one edge")
