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
    shares_of_steels,
    stack_drawn,
    stages,
)
from plans.reckoned import Reckoned
from plans.reckoner import checks
from plans.reckoner.errors import ReckonError, as_asked, blamed
from plans.reckoner.figures import Fact, Figure, Given, given, given_list, listed
from plans.reckoner.kinds import COUNT, LENGTH, MASS_PERCENT, SECONDS, SHARE, TEMPERATURE, THIN
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
    cut_in: int = 2,
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
        cut_in: how many pieces it is cut in each time, 2 for a fold
        meeting: which faces meet; None where that is not known: counted as if unlike ones did
        thickness: of the billet as it is stacked each time [m]; None where it is not known, or follows from `each`
        each: thickness of one piece of either steel [m]; empty for equal pieces
        ground: the bevel that is ground in the end, where its pattern is asked too
        heats: the welding heats, where it is asked whether carbon will still differ

    Raises:
        ReckonError: a count, a length, a temperature or a time is none that can be.
    """
    met = meeting or Meeting.UNLIKE
    if each and len(each) != 2:
        raise ReckonError("each", 'give the thickness of one piece of either steel, e.g. "4, 2 mm"')
    pair = (each[0], each[1]) if each else (1.0, 1.0)
    with as_asked():
        count = layers_after(pieces, folds, cut_in, met)
        shares = shares_of_steels(pieces, pair)
        if thickness is None and each:
            thickness = (pieces + 1) // 2 * pair[0] + pieces // 2 * pair[1]
        course = stages(pieces, folds, cut_in, met, thickness or 0.0)
        found: list[Figure | Fact] = [
            _count(count, pieces, folds, cut_in, meeting),
            _thick(thickness, pieces, folds, cut_in, met, pair),
            _stages(course),
            listed("shares", "share of each steel", shares, SHARE, "arithmetic", "as stacked", ARITHMETIC),
        ]
        if ground is not None:
            found += _ground(ground, pieces, folds, cut_in, met, pair)
    asked = [
        given("pieces", "pieces", pieces, COUNT),
        given("folds", "folds" if cut_in == 2 else "stacked again", folds, COUNT),
        given("cut_in", "cut in", cut_in, COUNT),
        Given("meeting", met.value, f"{met.value} faces meeting" + ("" if meeting else " (taken)")),
    ]
    if thickness is not None:
        asked.append(given("thickness_mm", "stacked to", thickness, LENGTH))
    if each:
        asked.append(given_list("each_mm", "each piece", each, LENGTH))
    if ground is not None:
        asked += [
            given("spine_mm", "spine", ground.spine, LENGTH),
            given("edge_mm", "edge", ground.edge, LENGTH),
            given("bevel_mm", "bevel", ground.height, LENGTH),
        ]
    if heats is not None:
        asked += _of_the_heats(heats)
        found.append(_carbon(heats, course, thickness))
    drawn = stack_drawn(pieces, cut_in, met, course, thickness or 0.04, pair)
    return Reckoning("layers", tuple(asked), tuple(found), drawing=drawn)


def _count(count: int, pieces: int, folds: int, cut_in: int, meeting: Meeting | None) -> Figure:
    like = layers_after(pieces, folds, cut_in, Meeting.LIKE)
    said = {
        Meeting.LIKE: "two layers become one at each joint",
        Meeting.UNLIKE: "every joint a new border, which takes an even number of pieces, cut and not folded over",
        None: "every joint a new border; the range is down to faces of one steel meeting, as in every fold and with an "
        "odd number of pieces",
    }[meeting]
    ends = (like, count) if meeting is None and like != count else (None, None)
    return Figure("layers", "layers", Reckoned(count, "arithmetic", said, ARITHMETIC, *ends), COUNT)


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
    return (
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
