"""Layers by stacking, folding, cutting and stacking again: how many, how thick, how much of each steel is in them.

N pieces that are cut in k and stacked again, n times over, count N k^n layers where every joint is a new border. Where
faces of one steel meet, two layers become one at each of the k - 1 joints: N' = k N - (k - 1). A bar that is folded
over always lays a face on itself; so does a stack of an odd number of pieces in turn, with one steel on both faces.
"""

from __future__ import annotations

from collections.abc import Iterable
from enum import StrEnum
from math import atan, sin
from typing import Final

from plans.billets.errors import BilletError, above_zero
from plans.reckoned import Reckoned
from plans.record import record
from plans.steel import carbon_difference_left, hold

ARITHMETIC: Final = "arithmetic"
"""Source of a count and of what only counts and divides."""
MOST_PIECES, MOST_STAGES, MOST_CUTS, MOST_LAYERS = 1000, 20, 20, 10**9
"""The largest stack that can be asked about, how often it is stacked again, in how many pieces it is cut, and how many
layers that may come to."""


class Meeting(StrEnum):
    """Which faces are laid on each other when a billet is stacked again."""

    LIKE = "like"
    """Faces of one steel: two layers become one."""
    UNLIKE = "unlike"
    """Faces of two steels: every joint is a new border."""


@record
class Stage:
    """A billet after it was stacked or folded so many times, welded and drawn to its thickness again."""

    layers: int
    """How many layers it has."""
    layer: float
    """How thick one of them is on average [m]; 0 where no thickness was given."""


def layers_after(pieces: int, times: int, cut_in: int = 2, meeting: Meeting = Meeting.UNLIKE) -> int:
    """How many layers a billet has that was cut or folded and stacked again several times.

    Args:
        pieces: pieces of the first stack, from 1 up to `MOST_PIECES`
        times: how often it is folded, or cut and stacked again, up to `MOST_STAGES`
        cut_in: how many pieces it is cut in each time, 2 for a fold, up to `MOST_CUTS`
        meeting: which faces meet

    Raises:
        BilletError: a count is out of these limits, or there would be more than `MOST_LAYERS`.
    """
    for given, count, least, most in (
        ("pieces", pieces, 1, MOST_PIECES),
        ("folds", times, 0, MOST_STAGES),
        ("cut-in", cut_in, 2, MOST_CUTS),
    ):
        if not least <= count <= most:
            raise BilletError(given, f"{count}: give one from {least} to {most}")
    if pieces * cut_in**times > MOST_LAYERS:
        raise BilletError("folds", "that makes more than a thousand million layers; give less")
    layers = pieces
    for _ in range(times):
        layers = cut_in * layers - (cut_in - 1 if meeting is Meeting.LIKE else 0)
    return layers


def stages(
    pieces: int, times: int, cut_in: int = 2, meeting: Meeting = Meeting.UNLIKE, thickness: float = 0.0
) -> tuple[Stage, ...]:
    """The billet as first stacked, and after each time that it was folded or cut and stacked again.

    Args:
        pieces: pieces of the first stack
        times: how often it is stacked again
        cut_in: how many pieces it is cut in each time, 2 for a fold
        meeting: which faces meet
        thickness: of the billet as it is stacked each time [m]; 0 where it is not known

    Raises:
        BilletError: a count or the thickness is none that can be.
    """
    if thickness:
        above_zero(thickness=thickness)
    counts = [layers_after(pieces, done, cut_in, meeting) for done in range(times + 1)]
    return tuple(Stage(count, thickness / count) for count in counts)


def layer_thickness(
    thickness: float,
    pieces: int,
    times: int,
    cut_in: int = 2,
    meeting: Meeting = Meeting.UNLIKE,
    each: tuple[float, float] = (1.0, 1.0),
) -> Reckoned:
    """How thick one layer is on average in a billet or blade of a thickness [m].

    `least` and `most` are the thinnest and the thickest layer: of two steels that differ, and where like faces meet a
    layer is up to twice as thick.

    Args:
        thickness: of the billet or the blade, across the layers [m]
        pieces: pieces of the first stack
        times: how often it was stacked again
        cut_in: how many pieces it was cut in each time
        meeting: which faces met
        each: thickness of one piece of the first steel and of one of the second, in any unit

    Raises:
        BilletError: a count or the thickness is none that can be.
    """
    above_zero(thickness=thickness)
    layers = layers_after(pieces, times, cut_in, meeting)
    counts = (pieces + 1) // 2, pieces // 2
    shares = shares_of_steels(pieces, each)
    singles = [thickness * share / count / cut_in**times for share, count in zip(shares, counts, strict=True) if count]
    merged = meeting is Meeting.LIKE and times > 0 and pieces > 1
    # Of an odd number of pieces only the first steel lies outside, where layers meet.
    met = [2 * single for single in (singles[:1] if pieces % 2 else singles)] if merged else []
    thin, thick = min(singles), max(*singles, *met, 0.0)
    said = "on average, drawn evenly"
    if thin >= thick * (1 - 1e-9):
        return Reckoned(thickness / layers, "arithmetic", said, ARITHMETIC)
    said += "; the range is from the thinnest layer to the thickest" + (", where two have met" if merged else "")
    return Reckoned(thickness / layers, "arithmetic", said, ARITHMETIC, thin, thick)


def shares_of_steels(pieces: int, each: tuple[float, float] = (1.0, 1.0)) -> tuple[float, float]:
    """The shares of two steels that are stacked in turn, the first of them outside; folding does not change them.

    Args:
        pieces: pieces of the stack
        each: thickness of one piece of the first steel and of one of the second, in any unit

    Raises:
        BilletError: there is no piece, or a thickness is not above zero.
    """
    if pieces < 1:
        raise BilletError("pieces", f"{pieces}: give one or more")
    if not min(each) > 0:
        raise BilletError("each", "give a thickness above zero for each of the two steels")
    first, second = (pieces + 1) // 2 * each[0], pieces // 2 * each[1]
    return first / (first + second), second / (first + second)


def meeting_of(pieces: int, cut_in: int | None) -> Meeting:
    """Which faces meet where nobody says so, pieces of two steels in turn.

    A bar that is folded over lays a face on itself, and an odd number of pieces has one steel on both faces: like meets
    like. An even number that is cut and stacked again can be laid either way, and usually as it was, unlike on unlike.

    Args:
        pieces: pieces of the first stack
        cut_in: how many pieces it is cut in each time; None where it is folded
    """
    return Meeting.LIKE if cut_in is None or pieces % 2 else Meeting.UNLIKE


def layers_in_edge(spine: float, edge: float, pieces: int, times: int, cut_in: int, meeting: Meeting) -> Reckoned:
    """How many layers lie across the edge of a blade that is ground from both sides to the middle of its layers.

    Args:
        spine: thickness of the blade where its bevel begins, across all layers [m]
        edge: thickness of its edge, from 0 up [m]
        pieces: equal pieces of the first stack
        times: how often it was stacked again
        cut_in: how many pieces it was cut in each time
        meeting: which faces met

    Raises:
        BilletError: a count or the thickness is none that can be.
    """
    layer = layer_thickness(spine, pieces, times, cut_in, meeting)
    least, most = (None if one is None else max(1.0, edge / one) for one in (layer.most, layer.least))
    said = (
        "on average, with flat layers in the middle of the billet; the edge as thick as it is given, before it is sharp"
    )
    return Reckoned(max(1.0, edge / layer.value), "arithmetic", said, ARITHMETIC, least, most)


def band_on_bevel(layer: float, spine: float, edge: float, height: float) -> Reckoned:
    """How wide one layer shows on a ground bevel that cuts across flat layers at a small angle [m].

    The bevel leans to the middle plane by a with tan a = (spine - edge) / (2 height); a layer shows 1 / sin a times as
    wide as it is thick.

    Args:
        layer: thickness of the layer in the blade [m]
        spine: thickness where the bevel begins [m]
        edge: thickness where it ends, from 0 up [m]
        height: of the bevel, along the middle plane [m]

    Raises:
        BilletError: a length is not above zero, or the edge is not thinner than the spine.
    """
    above_zero(spine=spine, bevel=height)
    if not layer > 0:
        raise BilletError("layer", "give a thickness above zero")
    if not 0 <= edge < spine:
        raise BilletError("edge", "the edge is thinner than the spine")
    lean = atan((spine - edge) / 2 / height)
    said = "layers that lie flat and even, cut by a plane bevel; hammered ones wander, and that is the pattern"
    return Reckoned(layer / sin(lean), "arithmetic", said, "plane geometry")


def carbon_left(through: Iterable[Stage], at: float, seconds: float, carbon: float | None = None) -> Reckoned:
    """Share of the first difference in carbon between neighbouring layers that is left in the end, from 1 down to 0.

    Each stage is at its heat for the same time; what counts is the sum of D t over the thickness squared.

    Args:
        through: the stages, each with the thickness of its layers
        at: temperature of the middle at the welding heat [K]
        seconds: time at that temperature at each stage, all heats of it together [s]
        carbon: mean content of the billet, for Agren's diffusivity [% by mass]; the textbook's constants without it

    Raises:
        SteelError: the layers have no thickness, or the carbon, the temperature or the time is none that can be.
    """
    return carbon_difference_left([(hold(at, seconds), stage.layer) for stage in through], carbon)


@record
class Layer:
    """One layer in its place."""

    steel: int
    """Which steel: 0 for the first, which lay outside, or 1."""
    share: float
    """Its share of the billet's thickness."""


def in_order(
    pieces: int,
    times: int,
    cut_in: int = 2,
    meeting: Meeting = Meeting.UNLIKE,
    each: tuple[float, float] = (1.0, 1.0),
) -> tuple[Layer, ...]:
    """The layers from the bottom up, pieces of two steels in turn, for a picture.

    Args:
        pieces: pieces of the first stack
        times: how often it was stacked again
        cut_in: how many pieces it was cut in each time
        meeting: which faces met; where like ones do, every other piece is turned over
        each: thickness of one piece of the first steel and of one of the second, in any unit

    Raises:
        BilletError: a count is none that can be.
    """
    layers_after(pieces, times, cut_in, meeting)
    shares = shares_of_steels(pieces, each)
    counts = (pieces + 1) // 2, pieces // 2
    order = [Layer(place % 2, shares[place % 2] / counts[place % 2]) for place in range(pieces)]
    for _ in range(times):
        thinner = [Layer(one.steel, one.share / cut_in) for one in order]
        order = []
        for place in range(cut_in):
            turned = thinner[::-1] if place % 2 and meeting is Meeting.LIKE else thinner
            if order and meeting is Meeting.LIKE and order[-1].steel == turned[0].steel:
                order[-1] = Layer(turned[0].steel, order[-1].share + turned[0].share)
                turned = turned[1:]
            order += turned
    return tuple(order)
