"""Elimination of a sparse symmetric system whose pattern stays: planned once, carried out at every step."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache

_Rows = tuple[tuple[int, int, tuple[tuple[int, int], ...]], ...]
"""For each unknown that is linked to a pivot: the place of their entry, the unknown, and which entries it changes."""


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
        return self._eliminated(list(self.entries), list(diagonal), list(right))

    def solve_both(
        self, diagonal: Sequence[float], right: Sequence[float], other: Sequence[float]
    ) -> tuple[list[float], list[float]]:
        """The solutions for two right sides; the matrix is eliminated once.

        Args:
            diagonal: the matrix's diagonal; the matrix must be positive definite with it
            right: one right side
            other: the other
        """
        entries, pivots, second = list(self.entries), list(diagonal), list(other)
        first = self._eliminated(entries, pivots, list(right))
        # The first pass has left the triangle in `entries` and the pivots in `pivots`.
        for pivot, rows in self.pattern.steps:
            share = second[pivot] / pivots[pivot]
            for place, one, _ in rows:
                second[one] -= entries[place] * share
        return first, self._back(entries, pivots, second)

    def _eliminated(self, entries: list[float], pivots: list[float], solution: list[float]) -> list[float]:
        for pivot, rows in self.pattern.steps:
            inverse, value = 1.0 / pivots[pivot], solution[pivot]
            for place, one, updates in rows:
                entry = entries[place]
                factor = entry * inverse
                pivots[one] -= factor * entry
                solution[one] -= factor * value
                for target, source in updates:
                    entries[target] -= factor * entries[source]
        return self._back(entries, pivots, solution)

    def _back(self, entries: list[float], pivots: list[float], solution: list[float]) -> list[float]:
        for pivot, rows in reversed(self.pattern.steps):
            value = solution[pivot]
            for place, one, _ in rows:
                value -= entries[place] * solution[one]
            solution[pivot] = value / pivots[pivot]
        return solution


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

    def statements(self, first: str, *second: str) -> Iterator[str]:
        """The elimination written out as Python, operation by operation in the same order, without loops.

        It takes the diagonal in `d0`, `d1` and so on, the entries in `e0`, `e1`, and each right side in variables of a
        letter of its own, which it leaves the solutions in.

        Args:
            first: letter of the right side
            second: letters of other ones
        """
        for pivot, rows in self.steps:
            if rows:
                yield f"inverse = 1.0 / d{pivot}"
            for other in second:
                yield f"share = {other}{pivot} / d{pivot}"
            for place, one, updates in rows:
                yield f"factor = e{place} * inverse"
                yield f"d{one} -= factor * e{place}"
                yield f"{first}{one} -= factor * {first}{pivot}"
                for other in second:
                    yield f"{other}{one} -= e{place} * share"
                for target, source in updates:
                    yield f"e{target} -= factor * e{source}"
        for side in (first, *second):
            for pivot, rows in reversed(self.steps):
                less = "".join(f" - e{place} * {side}{one}" for place, one, _ in rows)
                yield f"{side}{pivot} = ({side}{pivot}{less}) / d{pivot}"


@lru_cache(maxsize=64)
def pattern_of(count: int, linked: tuple[tuple[int, int], ...]) -> Pattern:
    """How matrices of so many unknowns are eliminated in which these are linked; the same one for all of them."""
    return Pattern(count, linked)
