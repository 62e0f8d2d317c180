"""The rack: the bars that one has, which of them to cut for what is needed, and what is left of them."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from plans.record import record
from plans.shapes import Section


@record
class RackBar:
    """Bars of one kind on the rack.

    Raises:
        ValueError: the length is not above zero, or there is none; the text begins with the attribute's name.
    """

    steel: str
    """Grade as the smith calls it."""
    section: Section
    """Their cross-section."""
    length: float
    """Length of each [m]."""
    pieces: int = 1
    """How many there are."""

    def __post_init__(self) -> None:
        if not self.length > 0:
            raise ValueError("length: a bar needs one above zero")
        if self.pieces < 1:
            raise ValueError("pieces: give one at least")


@record
class Need:
    """A piece that is needed from the rack."""

    steel: str
    """Grade that it has to be of; empty for any."""
    length_of: Callable[[Section], float | None]
    """From the section of a bar to the length to cut off it [m]; None where such a bar won't do."""
    name: str = ""
    """What it is for."""
    kerf: float = 0.0
    """What the saw takes beside that length, where anything of the bar is left [m]."""


@record
class Taken:
    """A cut from the rack."""

    need: int
    """Number of the need, from 0."""
    bar: RackBar
    """The bar that it is cut from, as it was before the cut; one piece."""
    length: float
    """Length to cut off [m]."""
    kerf: float = 0.0
    """Width of the saw cut beside it [m]."""

    @property
    def offcut(self) -> float:
        """What is left of the bar behind the saw cut [m]; 0 where the bar is used up."""
        return max(self.bar.length - self.length - self.kerf, 0.0)


@record
class FromRack:
    """What to cut from which bars, and what the rack holds then."""

    taken: tuple[Taken, ...]
    """The cuts, in the order of what was needed."""
    missing: tuple[int, ...]
    """Numbers of the needs, from 0, for which no bar will do."""
    left: tuple[RackBar, ...]
    """The rack afterwards."""


def cut_from(rack: Sequence[RackBar], needs: Sequence[Need]) -> FromRack:
    """Choose a bar for each need, so that what is left of the bars that are cut is as little as can be.

    The need that takes most steel comes first, and takes the bar of which least steel is left: best fit, decreasing.
    That keeps long bars long. It need not be the very best for many cuts from few bars, and it rarely is far off.

    Args:
        rack: the bars that there are
        needs: the pieces that are needed
    """
    singles = [_of_pieces(bar, 1) for bar in rack for _ in range(bar.pieces)]
    order = sorted(range(len(needs)), key=lambda number: _most(needs[number], rack), reverse=True)
    taken: dict[int, Taken] = {}
    for number in order:
        fits = [
            (bar.section.area * (bar.length - length), place, length)
            for place, bar in enumerate(singles)
            if (length := _length(needs[number], bar)) is not None and length <= bar.length
        ]
        if not fits:
            continue
        _, place, length = min(fits)
        bar = singles.pop(place)
        cut = Taken(number, bar, length, needs[number].kerf)
        taken[number] = cut
        if cut.offcut > 0:
            singles.insert(place, RackBar(bar.steel, bar.section, cut.offcut))
    missing = tuple(number for number in range(len(needs)) if number not in taken)
    return FromRack(tuple(taken[number] for number in sorted(taken)), missing, _gathered(singles))


def _length(need: Need, bar: RackBar) -> float | None:
    if need.steel and need.steel.casefold() != bar.steel.casefold():
        return None
    return need.length_of(bar.section)


def _most(need: Need, rack: Sequence[RackBar]) -> float:
    """Volume that a need takes from the least bar that will do [m3]."""
    return min((bar.section.area * length for bar in rack if (length := _length(need, bar)) is not None), default=0.0)


def _of_pieces(bar: RackBar, pieces: int) -> RackBar:
    return RackBar(bar.steel, bar.section, bar.length, pieces)


def _gathered(singles: Sequence[RackBar]) -> tuple[RackBar, ...]:
    """Single bars that are alike, as one entry each, in the order in which they come."""
    counts: dict[tuple[str, Section, float], int] = {}
    for bar in singles:
        key = (bar.steel, bar.section, bar.length)
        counts[key] = counts.get(key, 0) + 1
    return tuple(RackBar(*key, pieces) for key, pieces in counts.items())
