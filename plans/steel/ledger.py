"""The carbon ledger: what a hot skin loses of its carbon and of its metal, reckoned together along a sitting.

Scale eats the layer that has lost its carbon, and drawing thins what is left of it with the section; so the depth that
counts lies below the surface as it is now. The surface recedes by what goes to scale, and carbon comes to it by
diffusion and is gone: a moving boundary, solved beside the temperatures (moving_skin.py).

A fire short of oxygen holds the scale back and not the loss of carbon: at 1200 degC a gas with twice as much carbon
monoxide as dioxide is in balance with less than a hundredth of a per cent of carbon in the steel (2 CO = C + CO2, by
the free energies in D. R. Gaskell, Introduction to the Thermodynamics of Materials; from memory). So a rich fire takes
less metal, and what has lost its carbon lies deeper below the surface. Flux holds both back by no figure that is known,
and is not counted.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from math import inf, sqrt

from plans.reckoned import Reckoned
from plans.record import record
from plans.shapes import Section
from plans.steel.carbon import AUSTENITE, CARBON_FACTOR, HOTTEST, agren_diffusivity, check_steel
from plans.steel.errors import SteelError
from plans.steel.fire_air import ScaleShare
from plans.steel.history import History, gap_note, stretches
from plans.steel.moving_skin import MovingSkin
from plans.steel.scale import METAL_FOR_SCALE, parabolic_constant
from plans.units import Units

_SOURCE = (
    "Agren 1986 for the diffusion; Paidassi, as reviewed by Chen and Yuen 2003 (from memory), for the scale; Abuluwefa "
    "1992 and Morales-Franco for the fire's air"
)


@record
class Spell:
    """A part of a sitting that the piece goes through with one section, and at whose end it may be drawn out."""

    history: History
    """Times [s] and temperatures of the skin [K]."""
    section: Section | None = None
    """Section of the piece; None where it is not known."""
    drawn_to: Section | None = None
    """Section to which it has been drawn by the end; None where it was not struck."""
    is_cleaned: bool = False
    """Whether the scale was knocked or brushed off before it, so that it grows anew."""


@record
class Ledger:
    """What a piece has lost by the end, on each face."""

    decarb: Reckoned
    """Depth below the surface as it is now from which on the share of carbon asked for is left [m]."""
    scale: Reckoned
    """Metal that has gone to scale, added up [m]; what went early lay on a thicker piece."""
    mass_share: Reckoned | None
    """Share of the piece's mass that has gone to scale, from 0 to 1; None where no section is known."""
    profile: tuple[tuple[float, float], ...]
    """Depths below the surface as it is now [m] and the carbon there [% by mass], from the surface inwards."""


@record
class _Account:
    """What one setting of the rates comes to."""

    skin: MovingSkin
    gone: float
    left: float
    """Share of the piece's volume that is left."""
    missing: float
    hottest: float


def carbon_ledger(
    spells: Sequence[Spell], carbon: float, air: ScaleShare, share: float = 0.95, thickness: float | None = None
) -> Ledger:
    """What a piece has lost of its carbon and its metal, with ranges from what is not known of diffusion and scale.

    `decarb.most` is that of fast diffusion under little scale, `decarb.least` the other way round; both lie further off
    than either alone would have it. With no scale (`air` of 0) the depth is that of `decarb_depth`.

    Args:
        spells: what the piece went through, in order of time
        carbon: content of its core [% by mass]
        air: how much scale grows beside free air
        share: share of the core's carbon that is left at the depth asked for, from 0 to below 1
        thickness: of the piece to begin with, where no spell has a section [m]; thick work without either

    Raises:
        SteelError: the carbon content is not from 0 to 2 %, or the share not from 0 to below 1.
    """
    check_steel(1.0, carbon)
    if not 0 <= share < 1:
        raise SteelError(f"a share of {share:g}: give one from 0 to below 1")
    told = [replace(spell, history=tuple(spell.history)) for spell in spells]
    faster = CARBON_FACTOR**2  # a depth goes as the root of the diffusivity
    likely = _account(told, carbon, air.likely, 1.0, thickness)
    shallow = _account(told, carbon, air.most, 1 / faster, thickness)
    deep = _account(told, carbon, air.least, faster, thickness)
    depth, least, most = (account.skin.depth_of(share) for account in (likely, shallow, deep))
    middle = likely.skin.depths[-1]
    eaten, too_hot = depth is None or most is None, likely.hottest > HOTTEST

    def validity(units: Units) -> str:
        said = (
            f"to {share:.0%} of the core's carbon, with the scale that eats into it and the drawing that thins it, "
            f"flux not counted; from {units.temperature(AUSTENITE)} up"
            f"{gap_note(likely.missing)}"
        )
        return f"{said}; so thin a piece may have lost some of it right to its middle" if eaten else said

    scaling = (
        f"added up over the heats; how a fire's air counts rests on a few printed yields{gap_note(likely.missing)}"
    )

    decarb = Reckoned(
        middle if depth is None else depth,
        "modelled",
        validity,
        _SOURCE,
        least or 0.0,
        deep.skin.depths[-1] if most is None else most,
        eaten or too_hot,
    )
    scale = Reckoned(likely.gone, "modelled", f"each face, {scaling}", _SOURCE, deep.gone, shallow.gone)
    known = any(spell.section is not None for spell in told)
    lost = Reckoned(1 - likely.left, "modelled", scaling, _SOURCE, 1 - deep.left, 1 - shallow.left) if known else None
    profile = zip(likely.skin.depths, likely.skin.contents, strict=True)
    return Ledger(decarb, scale, lost, tuple((depth, carbon * content) for depth, content in profile))


def _account(
    spells: Sequence[Spell], carbon: float, scale_share: float, faster: float, thickness: float | None
) -> _Account:
    """Follow the skin through all spells with one setting of the rates.

    Args:
        scale_share: metal lost beside what free air takes
        faster: factor on the diffusivity
    """
    section = next((spell.section for spell in spells if spell.section is not None), None)
    across = section.thickness if section is not None else thickness
    skin = MovingSkin(inf if across is None else across / 2)
    gone = missing = hottest = squared = 0.0
    left = 1.0
    for spell in spells:
        section = spell.section or section
        if spell.is_cleaned:
            squared = 0.0
        spread = scaled = 0.0
        for piece in _pieces(spell.history, carbon):
            missing += piece.missing
            hottest = max(hottest, piece.kelvin)
            rest_spread, rest_squared = piece.spread * faster, piece.squared
            while True:
                part = min(1.0, (skin.longest_step - spread) / rest_spread) if rest_spread > 0 else 1.0
                grown = METAL_FOR_SCALE * scale_share * (sqrt(squared + part * rest_squared) - sqrt(squared))
                spread, scaled, squared = spread + part * rest_spread, scaled + grown, squared + part * rest_squared
                rest_spread, rest_squared = (1 - part) * rest_spread, (1 - part) * rest_squared
                if part >= 1:
                    break
                skin.diffuse(spread, scaled)
                gone, left = gone + scaled, left * _kept(section, scaled)
                spread = scaled = 0.0
        if spread > 0:
            skin.diffuse(spread, scaled)
        else:
            skin.recede(scaled)
        gone, left = gone + scaled, left * _kept(section, scaled)
        if section is not None and spell.drawn_to is not None:
            skin.thin(_thinning(section, spell.drawn_to))
    return _Account(skin, gone, left, missing, hottest)


@record
class _Piece:
    """A piece of a history: what diffuses and what scales in it, by the textbook rates."""

    spread: float
    squared: float
    kelvin: float
    missing: float = 0.0


def _pieces(history: History, carbon: float) -> Iterator[_Piece]:
    for stretch in stretches(history):
        if stretch.is_gap:
            yield _Piece(0.0, 0.0, 0.0, stretch.end - stretch.start)
            continue
        for seconds, kelvin in stretch.pieces():
            spread = agren_diffusivity(kelvin, carbon) * seconds if kelvin >= AUSTENITE else 0.0
            yield _Piece(spread, parabolic_constant(kelvin) * seconds, kelvin)


def _thinning(before: Section, after: Section) -> float:
    """What drawing out makes of a layer on the skin: its volume stays, over a skin that has grown.

    A section that grows makes it no thicker here: where a bar is folded or stacked, its outer faces stay as they are.
    """
    return min(1.0, (after.area / after.around) / (before.area / before.around))


def _kept(section: Section | None, gone: float) -> float:
    """Share of a long bar that is left where so much metal has gone from every face."""
    return 1.0 if section is None else max(0.0, 1 - gone * section.around / section.area)
