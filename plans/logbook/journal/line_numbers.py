"""Where the entries of a journal belong: by the numbers of their lines, wherever those stand, and each of them once."""

from __future__ import annotations

from array import array
from itertools import pairwise


class LineNumbers:
    """The numbers of a journal's lines, as they are read. Entries go by how many were read before them."""

    def __init__(self) -> None:
        self._numbers = array("q")
        """One for each entry, from 1; 0 where its line has none."""
        self._last = 0
        self.in_turn = True
        """Whether each line stands where it was written, and once, as far as numbers tell."""

    def append(self, number: int | None) -> None:
        """Note the number of one line more; None where it has none, as in the journals of earlier versions."""
        self._numbers.append(number or 0)
        if number is not None:
            self.in_turn &= number > self._last
            self._last = number

    @property
    def again(self) -> list[int]:
        """The entries whose lines had been read already."""
        seen, found = set[int](), list[int]()
        for index, number in enumerate(() if self.in_turn else self._numbers):
            if number in seen:
                found.append(index)
            elif number:
                seen.add(number)
        return found

    @property
    def late(self) -> list[int]:
        """The entries whose lines stand right behind one that was written after them, and had not been read already."""
        again = set(self.again)
        behind = enumerate(pairwise(() if self.in_turn else self._numbers), start=1)
        return [index for index, (before, number) in behind if 0 < number < before and index not in again]

    @property
    def order(self) -> list[int]:
        """The entries, each once, in the order in which they were written; without a number, it follows the line before
        it."""
        again, place, last = set(self.again), list[int](), 0
        for number in self._numbers:
            last = number or last
            place.append(last)
        return sorted((index for index in range(len(place)) if index not in again), key=place.__getitem__)
