"""Three plans brought together into one: the draft that was made once, the text as it is now, and a new draft."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from typing import Any, Final, NamedTuple

from plans.editing.alignment import Name, aligned, moved
from plans.editing.differing import Difference, KeyDifference, PartDifference, key_difference, name_of, title_of
from plans.editing.draft import Draft, DraftTable
from plans.editing.figures import figures_of
from plans.editing.layout import comment_lines
from plans.editing.order import Part, cut, inserted, shifted
from plans.editing.plan_toml import MADE_FROM
from plans.editing.segments import joined, line_end, segments_of
from plans.editing.setting import Comment, parsed, with_values
from plans.errors import PlanError
from plans.text import plain
from plans.toml import KeyPath, value_at
from plans.units import Units

_PLACE: Final = re.compile("(step|bar) ([0-9]+)")


class _Told(NamedTuple):
    """What is told of one kind of change, head, bars and steps, each as it comes."""

    head: list[KeyDifference]
    bar: list[PartDifference]
    step: list[PartDifference]

    def of(self, part: Part) -> list[PartDifference]:
        return self.bar if part == "bar" else self.step


class Merging:
    """One way through all that differs."""

    def __init__(self, mine: Draft, text: str, units: Units, yielding: frozenset[tuple[Part, int]]) -> None:
        toml = parsed(text)
        self.mine = mine
        self.text = toml.text
        self.units = units
        self.yielding = yielding
        """Steps and bars in which nothing stays that the new draft has otherwise, by their number in the old text."""
        self.stands = toml.values
        self.values: dict[KeyPath, Any] = {}
        """What is still to be set in the text."""
        self.comments: dict[KeyPath, Comment] = {}
        """The comments that go with it."""
        self.followed, self.kept, self.gave_way = (_Told([], [], []) for _ in range(3))
        self.order: dict[Part, list[int | None]] = {}
        """For each step and bar of the new text its number in the old one; None for one that is new."""

    def told(self) -> list[Difference]:
        """What followed, what was kept, and what gave way; the numbers are those of the new text."""
        return [
            Difference(tuple(one.head), self._numbered("bar", one.bar, new), self._numbered("step", one.step, new))
            for one, new in ((self.followed, True), (self.kept, False), (self.gave_way, False))
        ]

    def _numbered(self, part: Part, parts: list[PartDifference], new: bool) -> tuple[PartDifference, ...]:
        """The differences in the order of the new text, those of one step in one.

        Args:
            part: bars or steps
            parts: as they came; one that stands in both texts has its number in the old one
            new: whether one that is only in the new text has its number in that already
        """
        order = self.order[part]
        found: dict[tuple[int | None, int | None], PartDifference] = {}
        for one in parts:
            after = one.after if one.after is None or (new and one.before is None) else order.index(one.after)
            at = (one.before, after)
            same = found.get(at)
            keys, elsewhere = (same.keys, same.moved) if same else ((), False)
            found[at] = replace(one, after=after, keys=(*keys, *one.keys), moved=one.moved or elsewhere)
        return tuple(sorted(found.values(), key=lambda one: (one.before or 0) if one.after is None else one.after))

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
        self._set()

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
        self._set()
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
            self.followed.of(part).append(PartDifference(here, here, title_of(mine[here].keys), True, ()))
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
        old, now, then = (figures_of(one.keys) for one in (base, mine, new))
        for path in old:
            by_hand = not old[path].is_same(now[path])
            if path[0] == MADE_FROM or (by_hand and now[path].is_same(then[path])):
                continue
            if by_hand and not yields:
                kept.append(key_difference(path, then[path], now[path]))
                continue
            if not now[path].is_same(then[path]):
                (gave_way if by_hand else followed).append(key_difference(path, now[path], then[path]))
                self.values[(*at, *path)] = then[path].written(self.units)
            was, says = (one.why.get(old[path].attribute, "") for one in (base, new))
            if was != says and then[path].is_there:
                # Where the new one comes from; what the smith has written there himself stays.
                self.comments[(*at, *path)] = Comment(says, plain(was))
                self.values.setdefault((*at, *path), value_at(self.stands, (*at, *path)))
        return followed, kept, gave_way

    def _set(self) -> None:
        """Set what is to be set, after comments on it that stand in lines of their own, as the draft was written."""
        segments = segments_of(self.text)
        end = line_end(self.text)
        for number, segment in enumerate(segments):
            text = segment.text
            for path, comment in self.comments.items():
                block = end + end.join(comment_lines(comment.over or "")) + end
                if comment.over and segment.path[:2] == path[:2] and block in text:
                    text = text.replace(block, end, 1)
                    self.comments[path] = comment._replace(over="")
            segments[number] = replace(segment, text=text)
        self.text = with_values(joined(segments), self.values, self.comments)
        self.values.clear()
        self.comments.clear()
