"""A plan made anew for other answers, without losing what was changed in it by hand.

Three plans are held side by side: the draft that was made from the answers as they were, the plan's text as it is now,
and the draft that is made from the new answers. What differs between the first two is the smith's, and stays; what
differs between the first and the last follows. Where one figure is both, the smith's stays, and both are told.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from typing import Any, Final, NamedTuple

from plans.editing.alignment import Name, aligned, moved
from plans.editing.changes import checked, with_made_from, with_values
from plans.editing.differing import Difference, KeyDifference, PartDifference, key_difference, name_of, title_of
from plans.editing.draft import Draft, DraftTable, draft_of
from plans.editing.figures import Figure, Path, figures_of
from plans.editing.layout import comment_lines
from plans.editing.parts import Part, cut, inserted, shifted
from plans.editing.plan_toml import MADE_FROM
from plans.editing.segments import joined, line_end, segments_of
from plans.errors import PlanError
from plans.record import record
from plans.toml import KeyPath
from plans.units import Units

_PLACE: Final = re.compile("(step|bar) ([0-9]+)")


@record
class Remade:
    """A plan made anew."""

    text: str
    """Its text; it can be followed."""
    followed: Difference
    """What follows the new answers: from the plan as it was to the plan as it is now."""
    kept: Difference
    """What was changed by hand and stays: from what the new answers would give to what stands in the plan."""
    gave_way: Difference
    """What was changed by hand, but could not stay since the plan would make no sense: from that to the new figure."""


def remake(base: Draft, mine: str, new: Draft, units: Units) -> Remade:
    """Make a plan anew for other answers.

    Args:
        base: what was made from the answers as they were
        mine: the plan's text as it is now
        new: what is made from the new answers, which it holds
        units: in which new figures are written

    Raises:
        PlanError: the plan's text can't be used, or can't be changed as it is written, or there is no way to bring the
            two together; it holds every fault.
    """
    yielding: frozenset[tuple[Part, int]] = frozenset()
    while True:
        merging = _Merging(draft_of(mine, "plan"), mine, units, yielding)
        merging.head(base, new)
        merging.parts("bar", base.bars, merging.mine.bars, new.bars)
        merging.parts("step", base.steps, merging.mine.steps, new.steps)
        text = merging.text
        if new.made_from is not None:
            text = with_made_from(text, new.made_from, units, check=False)
        try:
            return Remade(checked(text), *merging.told())
        except PlanError as error:
            at_fault = merging.at_fault(error)
            if at_fault <= yielding:
                raise
            yielding |= at_fault


class _Told(NamedTuple):
    """What is told of one kind of change, head, bars and steps, each as it comes."""

    head: list[KeyDifference]
    bar: list[PartDifference]
    step: list[PartDifference]

    def of(self, part: Part) -> list[PartDifference]:
        return self.bar if part == "bar" else self.step


class _Merging:
    """One way through all that differs."""

    def __init__(self, mine: Draft, text: str, units: Units, yielding: frozenset[tuple[Part, int]]) -> None:
        self.mine = mine
        self.text = text
        self.units = units
        self.yielding = yielding
        """Steps and bars in which nothing stays that the new draft has otherwise, by their number in the old text."""
        self.followed, self.kept, self.gave_way = (_Told([], [], []) for _ in range(3))
        self.order: dict[Part, list[int | None]] = {}
        """For each step and bar of the new text its number in the old one; None for one that is new."""

    def told(self) -> list[Difference]:
        """What followed, what was kept, and what gave way."""
        return [
            Difference(tuple(one.head), tuple(one.bar), tuple(one.step))
            for one in (self.followed, self.kept, self.gave_way)
        ]

    def at_fault(self, error: PlanError) -> frozenset[tuple[Part, int]]:
        """The steps and bars that an error is on, by their number in the old text."""
        found: set[tuple[Part, int]] = set()
        for fault in error.faults:
            place = _PLACE.match(fault.where)
            if place is not None:
                part: Part = "bar" if place[1] == "bar" else "step"
                old = self.order[part][int(place[2]) - 1]
                found |= set() if old is None else {(part, old)}
        return frozenset(found)

    def head(self, base: Draft, new: Draft) -> None:
        """Bring title and about together."""
        tables = [DraftTable[Any](one.head) for one in (base, self.mine, new)]
        followed, kept, _ = self._keys((), *tables, yields=False)
        self.followed.head.extend(followed)
        self.kept.head.extend(kept)

    def parts(
        self,
        part: Part,
        base: Sequence[DraftTable[Any]],
        mine: Sequence[DraftTable[Any]],
        new: Sequence[DraftTable[Any]],
    ) -> None:
        """Bring the bars together, or the steps."""
        by_title = [Name(title_of(one.keys), name_of(one).kind) for one in base]
        to_mine = aligned(by_title, [name_of(one) for one in mine])
        to_new = aligned([name_of(one) for one in base], [name_of(one) for one in new])
        mine_of = {to_new[old]: here for old, here in to_mine.items() if old in to_new}
        # What the smith has added, and the new draft has as well.
        added = [number for number in range(len(mine)) if number not in to_mine.values()]
        for number, one in enumerate(new):
            title = title_of(one.keys)
            same = next((here for here in added if title_of(mine[here].keys) == title), None)
            if number not in to_new.values() and same is not None:
                mine_of[number] = same
                added.remove(same)
        for old, here in to_mine.items():
            if old in to_new:
                self._part(part, here, base[old], mine[here], new[to_new[old]])
        gone = [here for old, here in to_mine.items() if old not in to_new]
        cut_out = [here for here in gone if self._gone(part, here, base, mine, to_mine)]
        taken_out = {number for old, number in to_new.items() if old not in to_mine}
        self._order(part, cut_out, mine_of, taken_out, mine, new, in_order=not moved(to_mine))
        self.kept.of(part).extend(PartDifference(None, one, title_of(mine[one].keys), False, ()) for one in added)
        self.kept.of(part).extend(
            PartDifference(one, None, title_of(new[one].keys), False, ()) for one in sorted(taken_out)
        )

    def _part(self, part: Part, here: int, base: DraftTable[Any], mine: DraftTable[Any], new: DraftTable[Any]) -> None:
        changes = self._keys((part, here), base, mine, new, yields=(part, here) in self.yielding)
        for told, keys in zip((self.followed, self.kept, self.gave_way), changes, strict=True):
            if keys:
                told.of(part).append(PartDifference(here, here, title_of(mine.keys), False, tuple(keys)))

    def _gone(
        self,
        part: Part,
        here: int,
        base: Sequence[DraftTable[Any]],
        mine: Sequence[DraftTable[Any]],
        to_mine: dict[int, int],
    ) -> bool:
        """Whether a step that the new draft has no more goes: it does where it stands as it was made."""
        old = next(old for old, number in to_mine.items() if number == here)
        was, now = figures_of(base[old].keys), figures_of(mine[here].keys)
        goes = all(was[path].is_same(now[path]) for path in was) or (part, here) in self.yielding
        told = self.followed if goes else self.kept
        title = title_of(mine[here].keys)
        told.of(part).append(PartDifference(here if goes else None, None if goes else here, title, False, ()))
        return goes

    def _order(
        self,
        part: Part,
        cut_out: list[int],
        mine_of: dict[int, int],
        taken_out: set[int],
        mine: Sequence[DraftTable[Any]],
        new: Sequence[DraftTable[Any]],
        *,
        in_order: bool,
    ) -> None:
        """Take out what goes, and put in what is new, each behind what it follows in the new draft.

        The order of the others follows the new draft as well, where that of the old one was not changed by hand.
        """
        for here in sorted(cut_out, reverse=True):
            self.text = cut(self.text, part, here)
        stays = [here for here in range(len(mine)) if here not in cut_out]
        if in_order:
            stays = self._reordered(part, stays, [mine_of[number] for number in sorted(mine_of)], mine)
        order: list[int | None] = [*stays]
        behind = -1
        for number, one in enumerate(new):
            if number in mine_of:
                behind = order.index(mine_of[number]) if mine_of[number] in order else behind
            elif number not in taken_out:
                behind += 1
                self.text = inserted(self.text, part, behind, one.keys, self.units, one.why)
                order.insert(behind, None)
                self.followed.of(part).append(PartDifference(None, behind, title_of(one.keys), False, ()))
        self.order[part] = order

    def _reordered(self, part: Part, stays: list[int], wanted: list[int], mine: Sequence[DraftTable[Any]]) -> list[int]:
        """Bring those that are wanted in another order into it, on the places that they have among the others."""
        in_turn = iter([here for here in wanted if here in stays])
        target = [next(in_turn) if here in wanted else here for here in stays]
        for here in sorted(moved({here: target.index(here) for here in stays})):
            place = target.index(here)
            self.followed.of(part).append(PartDifference(here, place, title_of(mine[here].keys), True, ()))
        order = list(stays)
        for place, here in enumerate(target):
            if order[place] != here:
                self.text = shifted(self.text, part, order.index(here), place)
                order.insert(place, order.pop(order.index(here)))
        return order

    def _keys(
        self, at: KeyPath, base: DraftTable[Any], mine: DraftTable[Any], new: DraftTable[Any], *, yields: bool
    ) -> tuple[list[KeyDifference], list[KeyDifference], list[KeyDifference]]:
        """Bring the keys of one table together; gives what followed, what was kept, and what gave way."""
        followed: list[KeyDifference] = []
        kept: list[KeyDifference] = []
        gave_way: list[KeyDifference] = []
        values: dict[KeyPath, Any] = {}
        comments: dict[KeyPath, str] = {}
        old, now, then = (figures_of(one.keys) for one in (base, mine, new))
        for path in old:
            if path[0] == MADE_FROM or now[path].is_same(then[path]):
                continue
            by_hand = not old[path].is_same(now[path])
            if by_hand and not yields:
                kept.append(key_difference(path, then[path], now[path]))
                continue
            (gave_way if by_hand else followed).append(key_difference(path, now[path], then[path]))
            values[(*at, *path)] = then[path].written(self.units)
            self._comment(at, path, then[path], base, new, comments)
        self.text = with_values(self.text, values, comments)
        return followed, kept, gave_way

    def _comment(
        self,
        at: KeyPath,
        path: Path,
        figure: Figure,
        base: DraftTable[Any],
        new: DraftTable[Any],
        comments: dict[KeyPath, str],
    ) -> None:
        """Have the comment on a figure that follows say where the new one comes from, in place of the old one."""
        was, now = base.why.get(figure.attribute, ""), new.why.get(figure.attribute, "")
        if was or now:
            comments[(*at, *path)] = now
            self.text = _without_block(self.text, at, was)


def _without_block(text: str, at: KeyPath, why: str) -> str:
    """The text without a comment that stands in lines of its own in a step or bar, as the draft was written."""
    if not why:
        return text
    end = line_end(text)
    block = end.join(comment_lines(why)) + end
    return joined(
        [
            replace(one, text=one.text.replace(end + block, end, 1)) if one.path[:2] == at else one
            for one in segments_of(text)
        ]
    )
