"""What differs between two plans: step by step and key by key, whatever the order and the units they are written in."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Any, Final

from plans.editing.alignment import Name, aligned, moved
from plans.editing.draft import Draft, DraftTable, draft_of
from plans.editing.figures import Figure, Path, figures_of
from plans.prose import in_units
from plans.reader import BarKeys, StepKeys
from plans.record import record
from plans.text import clean, plain
from plans.units import Shown, Units

if TYPE_CHECKING:
    from _typeshed import DataclassInstance

_LONGEST: Final = 60
"""Most characters of a text that a line of the difference shows."""
_BEFORE: Final = 15
"""How much of it stands before the first character that differs."""


@record
class KeyDifference:
    """A key that differs."""

    key: str
    """The key as it stands in the file, in a table within behind its name: "fire", "quench.medium"."""
    before: Shown
    """Its value in the first plan; empty where it is left out."""
    after: Shown
    """Its value in the second plan; empty where it is left out."""


@record
class PartDifference:
    """A step or a bar that differs."""

    before: int | None
    """Its number in the first plan, from 0; None where it is new."""
    after: int | None
    """Its number in the second plan, from 0; None where it is gone."""
    title: str
    """Its title or name: the new one, unless it is gone."""
    moved: bool
    """Whether it stands elsewhere among the others that both plans have."""
    keys: tuple[KeyDifference, ...]
    """What else differs in it; empty for one that is new or gone."""


@record
class Difference:
    """What differs between two plans."""

    head: tuple[KeyDifference, ...]
    """What differs in the title, in what the plan is about, and in the answers that it was made from."""
    bars: tuple[PartDifference, ...]
    """The bars that differ, in the order of the second plan, those that are gone where they were."""
    steps: tuple[PartDifference, ...]
    """The steps that differ, in the same order."""

    @property
    def is_empty(self) -> bool:
        """Whether nothing differs."""
        return not (self.head or self.bars or self.steps)

    def lines(self, units: Units) -> Iterator[str]:
        """The difference as lines for a person, e.g. `step 3 "Set the weld": fire: 1300 degC -> 1280 degC`."""
        yield from _key_lines(self.head, units)
        for word, parts in (("bar", self.bars), ("step", self.steps)):
            for part in parts:
                number = part.after if part.after is not None else part.before
                assert number is not None
                where = f'{word} {number + 1} "{clean(part.title)}"'
                if part.after is None:
                    yield f"{where}: is gone"
                elif part.before is None:
                    yield f"{where}: is new"
                elif part.moved:
                    yield f"{where}: moved, was {word} {part.before + 1}"
                yield from (f"{where}: {line}" for line in _key_lines(part.keys, units))


def difference(before: str, after: str, files: tuple[str, str] = ("first plan", "second plan")) -> Difference:
    """What differs between two plans.

    Args:
        before: the text of the one
        after: the text of the other
        files: what an error calls them

    Raises:
        PlanError: one of them can't be used; it holds every fault that was found in it.
    """
    return drafts_differ(draft_of(before, files[0]), draft_of(after, files[1]))


def drafts_differ(before: Draft, after: Draft) -> Difference:
    """What differs between two drafts of plans."""
    return Difference(
        _keys(before.head, after.head), _parts(before.bars, after.bars), _parts(before.steps, after.steps)
    )


def key_difference(path: Path, before: Figure, after: Figure) -> KeyDifference:
    """What differs in one key."""
    return KeyDifference(".".join(path), _shown(before), _shown(after))


def title_of(keys: StepKeys | BarKeys) -> str:
    """The title of a step, or the name of a bar."""
    return keys.title if isinstance(keys, StepKeys) else keys.name


def name_of(table: DraftTable[Any]) -> Name:
    """What a bar or a step is told by."""
    keys = table.keys
    return Name(table.part or title_of(keys), keys.kind if isinstance(keys, StepKeys) else keys.steel)


def _parts(before: Sequence[DraftTable[Any]], after: Sequence[DraftTable[Any]]) -> tuple[PartDifference, ...]:
    pairs = aligned([name_of(one) for one in before], [name_of(one) for one in after])
    elsewhere = moved(pairs)
    olds = {new: old for old, new in pairs.items()}
    found: list[tuple[float, PartDifference]] = []
    for new, table in enumerate(after):
        old = olds.get(new)
        keys = () if old is None else _keys(before[old].keys, table.keys)
        if old is None or keys or old in elsewhere:
            found.append((new, PartDifference(old, new, title_of(table.keys), old in elsewhere, keys)))
    for old, table in enumerate(before):
        if old not in pairs:
            place = max((new for one, new in pairs.items() if one < old), default=-1) + 0.5
            found.append((place, PartDifference(old, None, title_of(table.keys), False, ())))
    return tuple(part for _, part in sorted(found, key=lambda one: one[0]))


def _keys(before: DataclassInstance, after: DataclassInstance) -> tuple[KeyDifference, ...]:
    old, new = figures_of(before), figures_of(after)
    return tuple(key_difference(path, old[path], new[path]) for path in old if not old[path].is_same(new[path]))


def _shown(figure: Figure) -> Shown:
    return (lambda units: in_units(figure.shown(units), units)) if figure.is_there else ""


def _key_lines(keys: Sequence[KeyDifference], units: Units) -> Iterator[str]:
    for key in keys:
        if lines := _one_more_line(units.text(key.before), units.text(key.after)):
            yield from (f"{key.key}: {line}" for line in lines)
            continue
        before, after = _cut(plain(units.text(key.before)), plain(units.text(key.after)))
        if not before:
            yield f"{key.key}: {after}, is new"
        elif not after:
            yield f"{key.key}: {before}, is gone"
        elif before == after:
            yield f"{key.key}: {before}, but for less than is shown"
        else:
            yield f"{key.key}: {before} -> {after}"


def _one_more_line(before: str, after: str) -> list[str]:
    """What a text of several lines has more, or less, each line with its sign; empty where more than that differs."""
    old, new = _lines(before), _lines(after)
    if not old or not new:
        return []
    for sign, few, many in (("+", old, new), ("-", new, old)):
        more = [line for line in many if line not in few]
        if more and [line for line in many if line in few] == few:
            return [f"{sign} {clean(plain(line), _LONGEST)}" for line in more]
    return []


def _lines(text: str) -> list[str]:
    return [line for line in text.split("\n") if line]


def _cut(one: str, other: str) -> tuple[str, str]:
    """Two texts, cut to where they begin to differ where they are long."""
    alike = next((at for at, (a, b) in enumerate(zip(one, other, strict=False)) if a != b), min(len(one), len(other)))
    begin = max(0, alike - _BEFORE) if max(len(one), len(other)) > _LONGEST else 0
    dots = "..." if begin else ""
    return clean(dots + one[begin:], _LONGEST), clean(dots + other[begin:], _LONGEST)
