"""Which steps of one plan are which of another: by what they are called, where they stand, and what they are for."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Sequence
from typing import Final, NamedTuple

_ALIKE: Final = 0.6
"""Titles that share this much are taken for one that was reworded."""


class Name(NamedTuple):
    """What a step or a bar is told by."""

    title: str
    """Its title or name, or what part of the work it is."""
    kind: str = ""
    """What a step is for; the steel of a bar."""


def aligned(before: Sequence[Name], after: Sequence[Name]) -> dict[int, int]:
    """For each of the old ones that is still there, by its number, the number of the new one.

    Those of the same title and kind are one, in their order as far as it goes; then those of one kind between the same
    two others; then those of one kind whose titles are alike, and those of one title.
    """
    from difflib import SequenceMatcher  # only a comparison needs it

    found = _same(before, after)

    def pair(fits: Callable[[int, int], bool]) -> None:
        for old in range(len(before)):
            free = (new for new in range(len(after)) if old not in found and new not in found.values())
            new = next((one for one in free if fits(old, one)), None)
            if new is not None:
                found[old] = new

    def same_place(old: int, new: int) -> bool:
        earlier = max((one for one in found if one < old), default=-1)
        return found.get(earlier, -1) == max((one for one in found.values() if one < new), default=-1)

    pair(lambda old, new: before[old] == after[new])
    pair(lambda old, new: before[old].kind == after[new].kind and same_place(old, new))
    pair(
        lambda old, new: (
            before[old].kind == after[new].kind
            and SequenceMatcher(None, before[old].title, after[new].title).ratio() >= _ALIKE
        )
    )
    pair(lambda old, new: before[old].title == after[new].title)
    return dict(sorted(found.items()))


def in_order(before: Sequence[Name], after: Sequence[Name]) -> dict[int, int]:
    """For each of the old ones that keeps its place among the others, by its number, that of the new one: none cross.

    Those of the same title and kind are one, in their order as far as it goes; then those of one kind, in their order,
    between the same two others.
    """
    found = _same(before, after)
    old = new = 0
    for next_old, next_new in [*found.items(), (len(before), len(after))]:
        kinds = ([one.kind for one in names] for names in (before[old:next_old], after[new:next_new]))
        found |= {old + one: new + other for one, other in _same(*kinds).items()}
        old, new = next_old + 1, next_new + 1
    return dict(sorted(found.items()))


def moved(pairs: dict[int, int]) -> set[int]:
    """Which of the old ones have another place among those that are still there: as few as can be.

    Args:
        pairs: as `aligned` gives them
    """
    olds = sorted(pairs)
    longest: list[list[int]] = []
    for old in olds:
        longest.append([*_longest(row for row in longest if pairs[row[-1]] < pairs[old]), old])
    return set(olds) - set(_longest(longest))


def _same(before: Sequence[Hashable], after: Sequence[Hashable]) -> dict[int, int]:
    """Those that are equal, in their order as far as it goes: long runs first."""
    from difflib import SequenceMatcher  # only a comparison needs it

    blocks = SequenceMatcher(None, before, after, autojunk=False).get_matching_blocks()
    return {block.a + step: block.b + step for block in blocks for step in range(block.size)}


def _longest(rows: Iterable[list[int]]) -> list[int]:
    return max(rows, key=len, default=[])
