"""How to etch a piece so that its steels show, and how far they differ in the bath at all."""

from __future__ import annotations

from enum import StrEnum
from itertools import combinations
from typing import Final

from plans.maker.steels import PieceSteel, Steels
from plans.maker.why import Chosen, Concern, practice
from plans.record import record
from plans.steel import LEAST_TO_HARDEN

BATH: Final = "ferric chloride, 1 part to 4 of water"
"""What pieces are etched in, as a plan's `medium` has it."""
NICKEL: Final = 0.8
"""Steels that differ by so much nickel stand apart bright and dark [mass %]."""
CHROMIUM: Final = 0.8
"""Steels that differ by so much chromium turn two greys [mass %]."""
MANGANESE: Final = 0.7
"""Steels that differ by so much manganese turn two greys [mass %]."""
RESISTS: Final = 4.5
"""With more chromium the bath hardly takes a steel [mass %]."""


class Contrast(StrEnum):
    """How far the steels of a piece stand apart in the bath."""

    STRONG = "strong"
    """Bright against dark."""
    SOME = "some"
    """Light grey against dark grey."""
    LITTLE = "little"
    """Hardly to be told apart."""
    NONE = "none"
    """There is one steel only, which shows no pattern."""


@record
class Etch:
    """The dips of an etch."""

    medium: Chosen[str]
    """What it is dipped in, as a plan's `medium` has it."""
    seconds: Chosen[float]
    """How long each dip lasts [s]."""
    dips: Chosen[int]
    """How often it is dipped, cleaned between."""
    contrast: Chosen[Contrast]
    """How far the two steels that stand furthest apart do so."""


_DIPS: Final = {
    Contrast.STRONG: (600.0, 4),
    Contrast.SOME: (600.0, 4),
    Contrast.LITTLE: (600.0, 5),
    Contrast.NONE: (300.0, 2),
}


def etching(steels: Steels) -> tuple[Etch, tuple[Concern, ...]]:
    """How to etch a piece, and what is against it.

    Args:
        steels: of the piece, hardened and tempered as far as they harden
    """
    contrast = _contrast(steels)
    seconds, dips = _DIPS[contrast.value]
    found = Etch(
        Chosen(
            BATH,
            practice("Strong acid bites fast and coarse; thinned, it leaves even grey oxides that can be rubbed off."),
        ),
        Chosen(
            seconds, practice("Long enough to bite, short enough that oxide does not shield the steel: then clean it.")
        ),
        Chosen(dips, practice("Oxide rubbed off with fine paper between, until the step can be felt with a nail.")),
        contrast,
    )
    return found, tuple(_concerns(steels, contrast.value))


def _contrast(steels: Steels) -> Chosen[Contrast]:
    if not steels.welded:
        return Chosen(
            Contrast.NONE, practice(f"{steels.all[0].name} alone turns one even grey, darker where it is hard.")
        )
    found = [_apart(*pair) for pair in combinations(steels.all, 2)]
    return min(found, key=lambda one: list(Contrast).index(one.value))


def _apart(one: PieceSteel, other: PieceSteel) -> Chosen[Contrast]:
    a, b = one.holds, other.holds
    if one.grade is None or other.grade is None:
        said = f"{one.name} beside {other.name}: nobody knows here; etch a scrap of both before the blade."
        return Chosen(Contrast.SOME, practice(said))
    if abs(a.nickel - b.nickel) >= NICKEL:
        bright, dark = (one, other) if a.nickel > b.nickel else (other, one)
        return Chosen(Contrast.STRONG, practice(f"Nickel keeps {bright.name} bright; {dark.name} turns dark."))
    if max(a.chromium, b.chromium) >= RESISTS > min(a.chromium, b.chromium):
        bright, dark = (one, other) if a.chromium > b.chromium else (other, one)
        return Chosen(Contrast.STRONG, practice(f"Chromium keeps {bright.name} bright; {dark.name} turns dark."))
    if (a.carbon < LEAST_TO_HARDEN) != (b.carbon < LEAST_TO_HARDEN):
        light, dark = (one, other) if a.carbon < b.carbon else (other, one)
        said = f"{dark.name} turns dark once it is hard; {light.name}, which stays soft, turns a lighter grey."
        return Chosen(Contrast.SOME, practice(said))
    if abs(a.chromium - b.chromium) >= CHROMIUM or abs(a.manganese - b.manganese) >= MANGANESE:
        said = f"{one.name} and {other.name} differ in chromium or manganese: two greys, manganese the darker."
        return Chosen(Contrast.SOME, practice(said))
    return Chosen(Contrast.LITTLE, practice(f"{one.name} and {other.name} hold nearly the same: both turn dark."))


def _concerns(steels: Steels, contrast: Contrast) -> list[Concern]:
    found = []
    if contrast is Contrast.LITTLE:
        names = " and ".join(one.name for one in steels.all)
        what = f"{names} hardly differ in the etch: what shows is the seams, where carbon was lost, and little else."
        found.append(Concern(steels.all[-1].answer, what, "Take 15N20 or L6 for one of them: nickel stays bright."))
    for one in steels.all:
        if one.holds.chromium >= RESISTS:
            what = f"{one.name} has {one.holds.chromium:.3g} % chromium: this bath hardly takes it."
            found.append(
                Concern(one.answer, what, "Etch longer, in a warm bath of 1 part to 2, and try a scrap of it first.")
            )
    return found
