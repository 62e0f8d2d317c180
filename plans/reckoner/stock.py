"""The reckoning of a piece's stock: how much of a bar it takes, and where the rest of that goes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from plans.blows import StruckBy
from plans.press import usual_heats, usual_reduction
from plans.reader import Piece
from plans.reckoned import Reckoned
from plans.reckoner import checks
from plans.reckoner.errors import ReckonError, blamed
from plans.reckoner.figures import Fact, Figure, Given, given
from plans.reckoner.kinds import COUNT, LENGTH, MASS, SECONDS, SHARE, TEMPERATURE, THIN
from plans.reckoner.rack_cuts import rack_cuts
from plans.reckoner.reckoning import Reckoning
from plans.reckoner.skin import heats_alike
from plans.record import record
from plans.shapes import Section
from plans.shop import FireAir
from plans.steel import Grade, SteelError, carbon_ledger, density_of, find_grade, scale_share
from plans.stock import (
    USUAL_SCALE,
    Allowances,
    Cut,
    LossKind,
    Need,
    RackBar,
    ScaleLoss,
    comes_out,
    cut_from,
    piece_drawn,
    saw_cut,
)
from plans.units import Units, both, kelvin, section_in_both

_SOURCE = "constant volume; allowances as the piece's file has them, or common practice, no source"
_PRACTICE = "common practice, no source"
_MOST_HEATS = 99
_MOST_BARS = 100
_MOST_SCALE = 0.95
"""Most of a bar that is reckoned to go to scale; what is left then is no bar."""
_NAMES = {
    LossKind.GRINDING: "ground off",
    LossKind.ENDS: "ends cut off",
    LossKind.SCALE: "gone to scale",
    LossKind.SPARE: "spare",
    LossKind.STUBS: "stub",
    LossKind.KERF: "saw cut",
}


@record
class SkinHeats:
    """What each heat does to the skin."""

    at: float
    """Temperature of the skin [K]."""
    seconds: float
    """Time at it [s]."""
    carbon: float | None = None
    """Content of the steel [% by mass]; None for that of the piece's own grade."""
    fire: FireAir | None = None
    """How the fire is set; None where that is not known."""
    measured: float | None = None
    """Metal that goes to scale in the shop over what the formula for free air has; None where not measured."""


def reckon_piece(
    piece: Piece,
    bar: Section | None = None,
    rack: Sequence[RackBar] | None = None,
    heats: int | None = None,
    *,
    length: float | None = None,
    bars: int = 1,
    reduction: Reckoned | None = None,
    skin: SkinHeats | None = None,
    scale: Reckoned | None = None,
) -> Reckoning:
    """How much of a bar a piece takes; with its length, whether the piece comes out of it.

    Args:
        piece: what shall be made, with what is lost on the way
        bar: section of the bar; None where the rack chooses it
        rack: the bars that one has; None where they are not asked
        heats: how many heats it takes; None for what the piece's file says, or what follows from the bar
        length: of the bar that one has, sawn already [m]; None where it is not asked whether that is enough
        bars: how many bars of this section and length are welded together for it
        reduction: share of the area that a heat takes off, with its range; None for what a hand hammer usually does
        skin: what each heat does to the skin, so that the carbon ledger tells what goes to scale and what to grind;
            None for what the piece's file says, or what is usual
        scale: share of the steel that a heat takes as scale in this shop, with its range, where the piece's file says
            nothing of it and there is no `skin`; None for what is usual

    Raises:
        ReckonError: there is neither a bar nor a rack, the bar can't be, or no bar of the rack will do.
    """
    known = reduction or usual_reduction(StruckBy.HAND)
    by_the_shop = scale is not None and skin is None and piece.allowances.scale == USUAL_SCALE
    if scale is not None and by_the_shop:
        piece = replace(piece, allowances=replace(piece.allowances, scale=ScaleLoss.of(scale)))
    if not 1 <= bars <= _MOST_BARS:
        raise ReckonError("bars", f"{bars}: give from 1 to {_MOST_BARS}")
    if bar is None and (length is not None or bars > 1):
        raise ReckonError("section", "it is missing: that of the bar that you have")
    found: list[Figure | Fact] = []
    if heats is not None:
        if not 1 <= heats <= _MOST_HEATS:
            raise ReckonError("heats", f"{heats}: give from 1 to {_MOST_HEATS}")
        piece = replace(piece, allowances=replace(piece.allowances, heats=heats), heats_said=True)
    if bar is None:
        if rack is None:
            raise ReckonError("section", "give the section of the bar, or a rack to choose from")
        bar = _chosen(piece, rack, known).section
    checks.bar(bar, length)
    # Bars that are welded side by side, as high as one of them.
    whole = bar if bars == 1 else Section(bars * bar.area / bar.thickness, bar.thickness)
    if whole.area < (largest := _largest(piece)).area:
        why = f"it is smaller than the piece at its largest, {section_in_both(largest)}: take a larger bar, or upset it"
        raise ReckonError("section", why)
    allowances = _allowances(piece, whole, known)
    if skin is not None:
        allowances = _by_the_ledger(allowances, skin, whole, _largest(piece), _grade(piece.steel))
    cut = saw_cut(piece.shape, whole, allowances)
    if length is not None:
        found += _whether(piece, whole, length, allowances)
    if rack is not None:
        need = Need(piece.steel, lambda one: cut.length if one == bar else None, piece.title, allowances.kerf)
        found += rack_cuts(cut_from(rack, [need] * bars), [piece.title] * bars)
    each = "off each bar; " if bars > 1 else ""
    counted_in = (
        f"{each}all losses below counted, the saw cut beside it; the range is for heats that take little and much scale"
    )

    def said(units: Units) -> str:
        if scale is None or not by_the_shop:
            return counted_in
        return f"{counted_in}; each takes {100 * scale.value:.1f} % {units.text(scale.validity)}"

    heavy = density_of(kelvin(20), _grade(piece.steel))

    def weighs(volume: float, about: str) -> Reckoned:
        return heavy.times(volume, f"{about}; the range is that of the steel's density")

    sawn = cut.length * whole.area
    taken = cut.finished + sum(loss.volume for loss in cut.losses)
    long = Reckoned(cut.length, "arithmetic", said, _SOURCE, cut.least, cut.most)
    answer = [
        Figure("length_mm", "cut off the bar", long, LENGTH),
        Figure("mass_kg", "it weighs", weighs(sawn, "what is cut off"), MASS),
        Figure("finished_kg", "finished", weighs(cut.finished, "the piece, without a handle"), MASS),
        Figure("balance_mm", "balances along", _balance(piece, heavy.value), LENGTH),
    ]
    asked = _asked(piece, bar, length, bars, skin)
    losses = _losses(piece, cut, taken, allowances, by_ledger=skin is not None)
    drawn = piece_drawn(piece.shape, bar, cut.length if length is None else length)
    return Reckoning("stock", tuple(asked), (*answer, *losses, *found), drawing=drawn)


def _asked(piece: Piece, bar: Section, length: float | None, bars: int, skin: SkinHeats | None) -> list[Given]:
    asked = [
        Given("piece", piece.title, piece.title),
        Given("steel", piece.steel or None, piece.steel or "any steel"),
        Given("section", Units.METRIC.section(bar), lambda units: f"from {units.section(bar)}"),
    ]
    if length is not None:
        asked.append(given("have_mm", "bars of" if bars > 1 else "a bar of", length, LENGTH))
    if bars > 1:
        asked.append(given("bars", "bars", bars, COUNT))
    if skin is not None:
        asked += [
            given("at_celsius", "heats at", skin.at, TEMPERATURE),
            given("for_seconds", "each for", skin.seconds, SECONDS),
            Given("fire", skin.fire, f"fire {skin.fire or 'not known'}"),
        ]
    return asked


def _losses(piece: Piece, cut: Cut, taken: float, allowances: Allowances, *, by_ledger: bool) -> list[Figure]:
    """The heats and the grinding that the answer hangs on, and where the steel goes that the piece does not hold."""
    told = "as was said" if piece.heats_said else "to draw the bar down, and two for each body"
    heats_taken = Reckoned(
        allowances.heats, "common practice", f"{told}; say --heats where it takes you others", _PRACTICE
    )
    off = allowances.grinding
    if by_ledger:
        said = "the decarb at its deepest, by the carbon ledger over all heats"
        ground = Reckoned(off, "modelled", said, "the carbon ledger, as `skin` has it")
    else:
        said = "as the piece's file has it, or as is usual; `skin` tells more"
        ground = Reckoned(off, "common practice", said, _PRACTICE)
    shares = [
        Figure(
            f"{loss.kind}_fraction",
            _NAMES[loss.kind],
            Reckoned(loss.volume / taken, "arithmetic", "of all that the bar loses", _SOURCE),
            SHARE,
        )
        for loss in cut.losses
    ]
    return [
        Figure("heats", "heats", heats_taken, COUNT),
        Figure("grinding_mm", "ground off a face", ground, THIN),
        *shares,
    ]


def _balance(piece: Piece, density: float) -> Reckoned:
    """How far along from the beginning of its first body the finished piece balances."""
    on = "bare; a [handle] in its file would tell of it with one" if piece.handle is None else "with its handle on"
    said = f"from the beginning of its first body, {on}"
    return Reckoned(piece.shape.balance(density, piece.handle), "arithmetic", said, "centre of mass of its bodies")


def _grade(steel: str) -> Grade | None:
    """The grade that a piece's file names; None where none is known by that name."""
    try:
        return find_grade(steel)
    except SteelError:
        return None


def _by_the_ledger(
    allowances: Allowances, skin: SkinHeats, bar: Section, largest: Section, grade: Grade | None
) -> Allowances:
    """The allowances with what the heats take from the skin by the carbon ledger."""
    checks.warmth_of_steel("at", skin.at)
    checks.time("for", skin.seconds)
    carbon = skin.carbon if skin.carbon is not None else None if grade is None else grade.middle.carbon
    if carbon is None:
        raise ReckonError("carbon", "it is missing: the piece's file names no steel that is known here, e.g. 0.8")
    heats = max(1, allowances.heats)
    spells = heats_alike(skin.at, skin.seconds, heats, bar, largest if largest.area < bar.area else None)
    ledger = blamed("carbon", carbon_ledger, spells, carbon, scale_share(skin.fire, skin.measured))
    lost = ledger.mass_share
    assert lost is not None

    def a_heat(share: float | None) -> float:
        """What each heat takes, where all of them together take a share."""
        return float(1 - (1 - min(share or 0.0, _MOST_SCALE)) ** (1 / heats))

    scale = ScaleLoss(a_heat(lost.value), a_heat(lost.least), a_heat(lost.most))
    return replace(allowances, grinding=ledger.decarb.most or ledger.decarb.value, scale=scale)


def _whether(piece: Piece, bar: Section, length: float, allowances: Allowances) -> list[Figure | Fact]:
    """Whether a piece comes out of a bar, and what is spare."""
    scale = allowances.scale
    spare, least, most = (
        comes_out(piece.shape, [(bar, length)], replace(allowances, scale=ScaleLoss(one, one, one))).spare
        for one in (scale.likely, scale.most, scale.least)
    )
    said = "of the bar, with every loss but what is spare on purpose; below 0 it is not enough; the range is for scale"
    answer = "yes" if least >= 0 else "if the heats take little" if most >= 0 else "no"
    return [
        Fact("comes_out", "the piece comes out of it", answer, answer, "arithmetic", said, _SOURCE),
        Figure("left_over_fraction", "left over", Reckoned(spare, "arithmetic", said, _SOURCE, least, most), SHARE),
    ]


def _allowances(piece: Piece, bar: Section, reduction: Reckoned) -> Allowances:
    """What is lost on the way from this bar, whose heats follow from it where the piece's file does not say them."""
    if piece.heats_said:
        return piece.allowances
    largest = _largest(piece)
    # Besides drawing it down, two heats for the shape of each body: common practice, no source.
    drawing = usual_heats(bar, largest, reduction.value) if largest.area < bar.area else 0
    return replace(piece.allowances, heats=drawing + 2 * len(piece.shape.bodies))


def _largest(piece: Piece) -> Section:
    """The section of a piece with the largest area: no bar can be smaller, as drawing out makes none larger."""
    ends = (one for body in piece.shape.bodies for one in (body.section, body.end) if isinstance(one, Section))
    return max(ends, key=lambda section: section.area)


def _chosen(piece: Piece, rack: Sequence[RackBar], reduction: Reckoned) -> RackBar:
    """The bar of a rack that leaves least when the piece is cut off it."""
    least = _largest(piece).area

    def length_of(section: Section) -> float | None:
        if section.area < least:
            return None
        return saw_cut(piece.shape, section, _allowances(piece, section, reduction)).length

    found = cut_from(rack, [Need(piece.steel, length_of, piece.title, piece.allowances.kerf)])
    if found.taken:
        return found.taken[0].bar
    own = [bar for bar in rack if not piece.steel or bar.steel.casefold() == piece.steel.casefold()]
    if not own:
        raise ReckonError(
            "rack", f"there is no {piece.steel} on it; it holds {', '.join({bar.steel: None for bar in rack})}"
        )
    lengths = [(length, bar) for bar in own if (length := length_of(bar.section)) is not None]
    if not lengths:
        raise ReckonError(
            "rack", f"no bar on it is as large as the piece at its largest, {section_in_both(_largest(piece))}"
        )
    length, bar = min(lengths, key=lambda one: one[0] - one[1].length)
    short = f"{section_in_both(bar.section)} takes {both(lambda units: units.length(length))}"
    longest = both(lambda units: units.length(bar.length))
    raise ReckonError("rack", f"no bar on it is long enough: of {short}, and the longest is {longest}")
