"""Elimination of a sparse symmetric system whose pattern stays: planned once, carried out at every step."""

from __future__ import annotations

from collections.abc import Sequence


class Elimination:
    """Cholesky's elimination without roots, for matrices that differ in their diagonals only.

    The order is by least degree: always the unknown that is linked to the fewest others is eliminated next, so that
    little fills up. On the meshes here that halves the work of an elimination within a band.

    References:
        George and Liu, The Evolution of the Minimum Degree Ordering Algorithm, SIAM Review 31 (1989), 1-19.
    """

    __slots__ = ("_entries", "_steps")

    def __init__(self, count: int, links: Sequence[tuple[int, int, float]]) -> None:
        """Plan the elimination.

        Args:
            count: number of unknowns
            links: for each pair of unknowns that are linked, the two and the entry of the matrix off its diagonal
        """
        given = {(min(one, other), max(one, other)): entry for one, other, entry in links}
        beside: list[set[int]] = [set() for _ in range(count)]
        for one, other in given:
            beside[one].add(other)
            beside[other].add(one)
        places: dict[tuple[int, int], int] = {}
        entries: list[float] = []

        def place(one: int, other: int) -> int:
            key = (min(one, other), max(one, other))
            if key not in places:
                places[key] = len(entries)
                entries.append(given.get(key, 0.0))
            return places[key]

        steps, left = [], set(range(count))
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
        self._steps = tuple(steps)
        self._entries = entries

    def solve(self, diagonal: Sequence[float], right: Sequence[float]) -> list[float]:
        """The solution of the system.

        Args:
            diagonal: the matrix's diagonal; the matrix must be positive definite with it
            right: the right side
        """
        return self._solved(list(self._entries), list(diagonal), list(right))

    def solve_both(
        self, diagonal: Sequence[float], right: Sequence[float], other: Sequence[float]
    ) -> tuple[list[float], list[float]]:
        """The solutions for two right sides; the matrix is eliminated once.

        Args:
            diagonal: the matrix's diagonal; the matrix must be positive definite with it
            right: one right side
            other: the other
        """
        entries, pivots, second = list(self._entries), list(diagonal), list(other)
        first = self._solved(entries, pivots, list(right))
        # The first pass has left the triangle in `entries` and the pivots in `pivots`.
        for pivot, rows in self._steps:
            share = second[pivot] / pivots[pivot]
            for place, one, _ in rows:
                second[one] -= entries[place] * share
        return first, self._back(entries, pivots, second)

    def _solved(self, entries: list[float], pivots: list[float], solution: list[float]) -> list[float]:
        for pivot, rows in self._steps:
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
        for pivot, rows in reversed(self._steps):
            value = solution[pivot]
            for place, one, _ in rows:
                value -= entries[place] * solution[one]
            solution[pivot] = value / pivots[pivot]
        return solution
