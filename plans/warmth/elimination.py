"""Elimination of a sparse symmetric system whose pattern stays: planned once, carried out at every step."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import lru_cache
from typing import Any, cast

_PAYS_AFTER = 300
"""So many solutions of one pattern take as long as it takes to write them out as a function and to compile that."""

_Rows = tuple[tuple[int, int, tuple[tuple[int, int], ...]], ...]
"""For each unknown that is linked to a pivot: the place of their entry, the unknown, and which entries it changes."""
Solve = Callable[[Sequence[float], Sequence[float], Sequence[float]], list[float]]
SolveBoth = Callable[
    [Sequence[float], Sequence[float], Sequence[float], Sequence[float]], tuple[list[float], list[float]]
]


class Elimination:
    """Cholesky's elimination without roots, for matrices that differ in their diagonals only.

    The order is by least degree: always the unknown that is linked to the fewest others is eliminated next, so that
    little fills up. On the meshes here that halves the work of an elimination within a band. What has been solved often
    is written out, operation by operation in the same order, as a function without loops: a third of the time.

    References:
        George and Liu, The Evolution of the Minimum Degree Ordering Algorithm, SIAM Review 31 (1989), 1-19.
    """

    __slots__ = ("_entries", "_pattern")

    def __init__(self, count: int, links: Sequence[tuple[int, int, float]]) -> None:
        """Plan the elimination.

        Args:
            count: number of unknowns
            links: for each pair of unknowns that are linked, the two and the entry of the matrix off its diagonal
        """
        given = {(min(one, other), max(one, other)): entry for one, other, entry in links}
        self._pattern = _pattern(count, tuple(given))
        self._entries = [given.get(pair, 0.0) for pair in self._pattern.pairs]

    def solve(self, diagonal: Sequence[float], right: Sequence[float]) -> list[float]:
        """The solution of the system.

        Args:
            diagonal: the matrix's diagonal; the matrix must be positive definite with it
            right: the right side
        """
        return self._pattern.solve()(self._entries, diagonal, right)

    def solve_both(
        self, diagonal: Sequence[float], right: Sequence[float], other: Sequence[float]
    ) -> tuple[list[float], list[float]]:
        """The solutions for two right sides; the matrix is eliminated once.

        Args:
            diagonal: the matrix's diagonal; the matrix must be positive definite with it
            right: one right side
            other: the other
        """
        return self._pattern.solve_both()(self._entries, diagonal, right, other)


class _Pattern:
    """How a matrix is eliminated, by which of its entries are not zero; shared by all meshes that are cut up alike."""

    def __init__(self, count: int, linked: Sequence[tuple[int, int]]) -> None:
        self._count = count
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
        self._steps = tuple(steps)
        self._solved = 0
        self._solve: Solve | None = None
        self._solve_both: SolveBoth | None = None

    def solve(self) -> Solve:
        """The quickest that there is by now for one right side."""
        if self._solve is None:
            self._solved += 1
            if self._solved < _PAYS_AFTER:
                return self._step_by_step
            self._solve = self._compiled("right")
        return self._solve

    def solve_both(self) -> SolveBoth:
        """The quickest that there is by now for two right sides."""
        if self._solve_both is None:
            self._solved += 1
            if self._solved < _PAYS_AFTER:
                return self._both_step_by_step
            self._solve_both = self._compiled("right", "other")
        return self._solve_both

    def _both_step_by_step(
        self, entries: Sequence[float], diagonal: Sequence[float], right: Sequence[float], other: Sequence[float]
    ) -> tuple[list[float], list[float]]:
        triangle, pivots, second = list(entries), list(diagonal), list(other)
        first = self._eliminated(triangle, pivots, list(right))
        # The first pass has left the triangle and the pivots.
        for pivot, rows in self._steps:
            share = second[pivot] / pivots[pivot]
            for place, one, _ in rows:
                second[one] -= triangle[place] * share
        return first, self._back(triangle, pivots, second)

    def _step_by_step(
        self, entries: Sequence[float], diagonal: Sequence[float], right: Sequence[float]
    ) -> list[float]:
        return self._eliminated(list(entries), list(diagonal), list(right))

    def _eliminated(self, entries: list[float], pivots: list[float], solution: list[float]) -> list[float]:
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

    def _compiled(self, *rights: str) -> Callable[..., Any]:
        """The same for these right sides as one function, in which every number has a name and nothing is looped."""
        arguments = ("entries", "diagonal", *rights)
        lines = [f"def solve({', '.join(arguments)}):"]
        for name, count in zip(arguments, (len(self.pairs), *[self._count] * (1 + len(rights))), strict=True):
            if count:
                lines.append(f"    {''.join(f'{name[0]}{k}, ' for k in range(count))} = {name}")
        lines += [f"    {statement}" for statement in self._statements(*(name[0] for name in rights))]
        solutions = (f"[{', '.join(f'{name[0]}{k}' for k in range(self._count))}]" for name in rights)
        lines.append(f"    return {', '.join(solutions)}")
        made: dict[str, Any] = {}
        exec("\n".join(lines), made)
        return cast(Callable[..., Any], made["solve"])

    def _statements(self, first: str, *second: str) -> Iterator[str]:
        for pivot, rows in self._steps:
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
            for pivot, rows in reversed(self._steps):
                less = "".join(f" - e{place} * {side}{one}" for place, one, _ in rows)
                yield f"{side}{pivot} = ({side}{pivot}{less}) / d{pivot}"


@lru_cache(maxsize=64)
def _pattern(count: int, linked: tuple[tuple[int, int], ...]) -> _Pattern:
    return _Pattern(count, linked)
