"""Elimination of a sparse symmetric system whose pattern stays: planned once, carried out at every step."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

_Rows = tuple[tuple[int, int, tuple[tuple[int, int], ...]], ...]
"""For each unknown that is linked to a pivot: the place of their entry, the unknown, and which entries it changes."""
Steps = tuple[tuple[int, _Rows], ...]
"""For each unknown that is eliminated, in order, its rows."""


class Elimination:
    """Cholesky's elimination without roots, for matrices that differ in their diagonals only.

    The order is by least degree: always the unknown that is linked to the fewest others is eliminated next, so that
    little fills up. On the meshes here that halves the work of an elimination within a band.

    References:
        George and Liu, The Evolution of the Minimum Degree Ordering Algorithm, SIAM Review 31 (1989), 1-19.
    """

    __slots__ = ("entries", "pattern")

    def __init__(self, count: int, links: Sequence[tuple[int, int, float]]) -> None:
        """Plan the elimination.

        Args:
            count: number of unknowns
            links: for each pair of unknowns that are linked, the two and the entry of the matrix off its diagonal
        """
        given = {(min(one, other), max(one, other)): entry for one, other, entry in links}
        self.pattern = pattern_of(count, tuple(given))
        """How it is eliminated; the same for all matrices with the same entries that are not zero."""
        self.entries = tuple(given.get(pair, 0.0) for pair in self.pattern.pairs)
        """The entries off the diagonal, those left out that are zero and stay so."""

    def solve(self, diagonal: Sequence[float], right: Sequence[float]) -> list[float]:
        """The solution of the system.

        Args:
            diagonal: the matrix's diagonal; the matrix must be positive definite with it
            right: the right side
        """
        entries, pivots, solution = [*self.entries], [*diagonal], [*right]
        eliminate(self.pattern.steps, entries, pivots)
        substitute(self.pattern.steps, entries, pivots, solution)
        return solution


def eliminate(steps: Steps, entries: list[float], pivots: list[float]) -> None:
    """Eliminate a matrix in place: its triangle is left in `entries`, and one over each pivot in `pivots`.

    Args:
        steps: of its pattern
        entries: those off its diagonal
        pivots: its diagonal
    """
    for pivot, rows in steps:
        inverse = 1.0 / pivots[pivot]
        pivots[pivot] = inverse
        for place, one, updates in rows:
            factor = entries[place] * inverse
            pivots[one] -= factor * entries[place]
            for target, source in updates:
                entries[target] -= factor * entries[source]


def substitute(steps: Steps, entries: list[float], pivots: list[float], right: list[float]) -> None:
    """Solve for a right side in place, with a matrix that is eliminated; there may be several, one after the other.

    Args:
        steps: of its pattern
        entries: its triangle
        pivots: one over each of its pivots
        right: the right side, and then the solution
    """
    for pivot, rows in steps:
        share = right[pivot] * pivots[pivot]
        for place, one, _ in rows:
            right[one] -= entries[place] * share
    for pivot, rows in reversed(steps):
        for place, one, _ in rows:
            right[pivot] -= entries[place] * right[one]
        right[pivot] *= pivots[pivot]


class Pattern:
    """How a matrix is eliminated, by which of its entries are not zero; shared by all meshes that are cut up alike."""

    def __init__(self, count: int, linked: Sequence[tuple[int, int]]) -> None:
        self.count = count
        """Number of unknowns."""
        beside: list[set[int]] = [set() for _ in range(count)]
        for one, other in linked:
            beside[one].add(other)
            beside[other].add(one)
        places: dict[tuple[int, int], int] = {}

        def place(one: int, other: int) -> int:
            return places.setdefault((min(one, other), max(one, other)), len(places))

        steps: list[tuple[int, _Rows]] = []
        left = set(range(count))
        while left:
            pivot = min(left, key=lambda unknown: (len(beside[unknown]), unknown))
            left.discard(pivot)
            rows = []
            others = sorted(beside[pivot])
            for k, one in enumerate(others):
                beside[one].discard(pivot)
                later = others[k + 1 :]
                rows.append((place(pivot, one), one, tuple((place(one, two), place(pivot, two)) for two in later)))
                for two in later:
                    beside[one].add(two)
                    beside[two].add(one)
            steps.append((pivot, tuple(rows)))
        self.pairs = tuple(places)
        """Which unknowns each entry links, by the place of the entry."""
        self.steps = tuple(steps)
        """For each unknown that is eliminated, in order, its rows."""


@lru_cache(maxsize=64)
def pattern_of(count: int, linked: tuple[tuple[int, int], ...]) -> Pattern:
    """How matrices of so many unknowns are eliminated in which these are linked; the same one for all of them."""
    return Pattern(count, linked)
