"""The reckoning of layers: how many a billet has after its folds, how thick they are, and what they are made of."""

from __future__ import annotations

from plans.billets import (
    ARITHMETIC,
    Meeting,
    Stage,
    band_on_bevel,
    carbon_left,
    layer_thickness,
    layers_after,
    layers_in_edge,
    meeting_of,
    shares_of_steels,
    stack_drawn,
    stages,
)
from plans.reckoned import Reckoned
from plans.reckoner import checks
from plans.reckoner.errors import ReckonError, as_asked, blamed
from plans.reckoner.figures import Fact, Figure, Given, given, given_list, listed
from plans.reckoner.kinds import COUNT, MASS_PERCENT, NUMBER, SECONDS, SHARE, TEMPERATURE, THIN, TYPED_LENGTH
from plans.reckoner.reckoning import Reckoning
from plans.record import record


@record
class Ground:
    """A bevel that is ground into layered steel."""

    spine: float
    """Thickness of the blade where the bevel begins [m]."""
    edge: float
    """Thickness of its edge [m]."""
    height: float
    """Height of the bevel [m]."""


@record
class WeldHeats:
    """The heats at which a billet is welded, each time that it is stacked."""

    at: float
    """Temperature of its middle [K]."""
    seconds: float
    """Time at that temperature each time that it is stacked, all heats of it together [s]."""
    carbon: float | None = None
    """Mean carbon content of the billet [% by mass]; None where it is not known."""


def reckon_folds(
    pieces: int,
    folds: int,
    cut_in: int | None = None,
    meeting: Meeting | None = None,
    thickness: float | None = None,
    each: tuple[float, ...] = (),
    ground: Ground | None = None,
    heats: WeldHeats | None = None,
) -> Reckoning:
    """How many layers a billet has and how thick, how much of each steel is in it, and whether carbon still differs.

    Args:
        pieces: pieces of the first stack, two steels in turn
        folds: how often it is folded, or cut and stacked again
        cut_in: how many pieces it is cut in each time; None where it is folded over
        meeting: which faces meet; None where that is not said: as `plans.billets.meeting_of` has it
        thickness: of the billet as it is stacked each time [m]; None where it is not known, or follows from `each`
        each: thickness of one piece of either steel [m]; empty for equal pieces
        ground: the bevel that is ground in the end, where its pattern is asked too
        heats: the welding heats, where it is asked whether carbon will still differ

    Raises:
        ReckonError: a count, a length, a temperature or a time is none that can be.
    """
    met = meeting or meeting_of(pieces, cut_in)
    parts = 2 if cut_in is None else cut_in
    if each and len(each) != 2:
        raise ReckonError("each", 'give the thickness of one piece of either steel, e.g. "4, 2 mm"')
    pair = (each[0], each[1]) if each else (1.0, 1.0)
    with as_asked():
        layers_after(pieces, folds, parts, met)
        shares = shares_of_steels(pieces, pair)
        if thickness is None and each:
            thickness = (pieces + 1) // 2 * pair[0] + pieces // 2 * pair[1]
        course = stages(pieces, folds, parts, met, thickness or 0.0)
        found: list[Figure | Fact] = [
            _count(pieces, folds, cut_in, meeting),
            _thick(thickness, pieces, folds, parts, met, pair),
            _stages(course),
            listed("shares", "share of each steel", shares, SHARE, "arithmetic", "as stacked", ARITHMETIC),
        ]
        if ground is not None:
            found += _ground(ground, pieces, folds, parts, met, pair)
    asked = [
        given("pieces", "pieces", pieces, COUNT),
        given("folds", "folds" if cut_in is None else "stacked again", folds, COUNT),
        Given("cut_in", COUNT.record(parts), "folded over" if cut_in is None else f"cut in {parts}"),
        Given("meeting", met.value, f"{met.value} faces meeting" + ("" if meeting else " (taken)")),
    ]
    if thickness is not None:
        asked.append(given("thickness_mm", "stacked to", thickness, TYPED_LENGTH))
    if each:
        asked.append(given_list("each_mm", "each piece", each, TYPED_LENGTH))
    if ground is not None:
        asked += [
            given("spine_mm", "spine", ground.spine, TYPED_LENGTH),
            given("edge_mm", "edge", ground.edge, TYPED_LENGTH),
            given("bevel_mm", "bevel", ground.height, TYPED_LENGTH),
        ]
    if heats is not None:
        asked += _of_the_heats(heats)
        found.append(_carbon(heats, course, thickness))
    drawn = stack_drawn(pieces, cut_in, met, course, thickness, pair)
    return Reckoning("layers", tuple(asked), tuple(found), drawing=drawn)


def _count(pieces: int, folds: int, cut_in: int | None, meeting: Meeting | None) -> Figure:
    parts, met = cut_in or 2, meeting or meeting_of(pieces, cut_in)
    like = layers_after(pieces, folds, parts, Meeting.LIKE)
    one_steel = "an odd number of pieces in turn has one steel on both faces"
    over = "a fold lays a face on itself"
    ends: tuple[float | None, float | None] = (None, None)
    if met is Meeting.LIKE:
        because = one_steel if pieces % 2 else over
        said = "two layers become one at each joint" + ("" if meeting else f": {because}, so like meets like")
    else:
        said = "every joint a new border"
        if meeting is None and like != pieces * parts**folds:
            said += ", laid as it was cut; the low end is for every other piece turned over, like on like"
            ends = (like, pieces * parts**folds)
        elif pieces % 2 or cut_in is None:
            said += f", as asked; but {one_steel if pieces % 2 else over}: then there are {like}"
    return Figure(
        "layers",
        "layers",
        Reckoned(layers_after(pieces, folds, parts, met), "arithmetic", said, ARITHMETIC, *ends),
        COUNT,
    )


def _thick(
    thickness: float | None, pieces: int, folds: int, cut_in: int, met: Meeting, each: tuple[float, float]
) -> Figure:
    layer = None if thickness is None else layer_thickness(thickness, pieces, folds, cut_in, met, each)
    why = "give the thickness of the billet, or of each piece"
    return Figure("layer_mm", "one layer", layer, THIN, "" if layer else why)


def _stages(course: tuple[Stage, ...]) -> Fact:
    kept = [{"layers": stage.layers, "layer_mm": THIN.record(stage.layer) if stage.layer else None} for stage in course]
    text = ", ".join(str(stage.layers) for stage in course)
    thin = [stage.layer for stage in course if stage.layer]
    return Fact(
        "stages",
        "layers stage by stage",
        kept,
        (lambda units: f"{text}; of {', '.join(units.depth(layer, unit=False) for layer in thin)} {units.length_unit}")
        if thin
        else text,
        "arithmetic",
        "drawn to the same thickness before it is stacked again",
        ARITHMETIC,
    )


def _ground(
    ground: Ground, pieces: int, folds: int, cut_in: int, met: Meeting, each: tuple[float, float]
) -> tuple[Figure, ...]:
    layer = layer_thickness(ground.spine, pieces, folds, cut_in, met, each)
    band = band_on_bevel(layer.value, ground.spine, ground.edge, ground.height)
    across = layers_in_edge(ground.spine, ground.edge, pieces, folds, cut_in, met)
    return (
        Figure("edge_layers", "layers across the edge", across, NUMBER),
        Figure("blade_layer_mm", "one layer in the blade", layer, THIN),
        Figure("band_mm", "a layer shows on the bevel", band, THIN),
    )


def _of_the_heats(heats: WeldHeats) -> list[Given]:
    checks.warmth_of_steel("at", heats.at)
    checks.time("for", heats.seconds)
    asked = [
        given("at_celsius", "welded at", heats.at, TEMPERATURE),
        given("for_seconds", "for", heats.seconds, SECONDS),
    ]
    if heats.carbon is not None:
        asked.append(given("carbon_percent", "carbon", heats.carbon, MASS_PERCENT))
    return asked


def _carbon(heats: WeldHeats, course: tuple[Stage, ...], thickness: float | None) -> Figure:
    left = None
    if thickness is not None:
        left = blamed("carbon", carbon_left, course, heats.at, heats.seconds, heats.carbon)
    why = "" if left else "give the thickness of the billet"
    return Figure("carbon_left_fraction", "difference in carbon left", left, SHARE, why)
