"""The keys of one part of a plan, each as a text that can be typed over, with where its figure comes from."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, Any, Final

from plans.editing import Draft, DraftTable, Figure, figures_of
from plans.maker import Proposal, Why
from plans.phase import PhaseKind
from plans.plan import USUAL_PHASES
from plans.prose import in_units
from plans.reader import BarKeys, Choice, Line, Lines, Nested, Paragraphs, StepKeys, key_meanings, keys_of
from plans.record import record
from plans.text import paragraphs, plain
from plans.toml import KeyPath
from plans.units import Units
from tui.widgets import Field

if TYPE_CHECKING:
    from _typeshed import DataclassInstance

BREAK: Final = " // "
"""What stands for the end of a line, or of a paragraph, where a text of several is shown in one."""


@record(eq=False)
class KeyRow:
    """One key of a part of the plan."""

    path: KeyPath
    """Its path in the file: ("step", 2, "quench", "medium")."""
    figure: Figure
    """Its declaration and its value."""
    table: type[DataclassInstance]
    """The declaration of the table that it stands in."""
    why: Why | None
    """Where its figure comes from; None where that is not known, as of one that was changed by hand."""

    @property
    def name(self) -> str:
        """What it is called: "quench medium"."""
        return " ".join(str(one) for one in self.path if isinstance(one, str) and one not in ("step", "bar"))

    @property
    def meaning(self) -> str:
        """What the key means, and what happens without it."""
        attribute = self.figure.attribute.rpartition(".")[2]
        said = key_meanings(self.table)[attribute]
        return f"{said} Without it: {self.figure.key.otherwise}." if self.figure.key.otherwise else said

    def shown(self, units: Units) -> str:
        """Its value as it is typed, in one line; empty where it is left out."""
        text = self.figure.shown(units)
        kind = self.figure.key.value
        if isinstance(kind, Paragraphs):
            return BREAK.join(paragraphs(text))
        return BREAK.join(text.splitlines()) if isinstance(kind, Lines) else text

    def typed(self, text: str) -> str | None:
        """What a text of one line means for the file; None takes the key out."""
        if not text.strip():
            return None
        ends = "\n\n" if isinstance(self.figure.key.value, Paragraphs) else "\n"
        return ends.join(one.strip() for one in text.split(BREAK.strip())) if self._breaks else text

    @property
    def _breaks(self) -> bool:
        return isinstance(self.figure.key.value, Paragraphs | Lines)


def key_rows(path: KeyPath, draft: Draft, proposal: Proposal | None) -> list[KeyRow]:
    """The keys that a part of a plan has or can have, in the order of the file.

    Args:
        path: of the part; empty for the plan's head
        draft: the plan's keys
        proposal: what it was made from, which has the reasons; None where that is not known
    """
    match path:
        case ("step", int(number)):
            keys = draft.steps[number].keys
            return list(_rows(path, keys, _phases(keys), _whys_of_step(keys, proposal)))
        case ("bar", int(number)):
            bar = draft.bars[number].keys
            return list(_rows(path, bar, None, _whys_of_bar(draft.bars[number], proposal)))
    head = _rows((), draft.head, None, {})
    return [row for row in head if row.path in (("title",), ("about",))]


def _phases(keys: StepKeys) -> tuple[PhaseKind, ...]:
    return keys.phases or tuple(USUAL_PHASES[keys.kind])


def _rows(
    path: KeyPath, keys: DataclassInstance, phases: tuple[PhaseKind, ...] | None, whys: Mapping[str, tuple[Any, Why]]
) -> Iterator[KeyRow]:
    outer = {one.name: one for one in keys_of(type(keys)).values()}
    for inner, figure in figures_of(keys).items():
        first = outer[inner[0]]
        phase = figure.key.phase or first.phase
        if not figure.is_there and phases is not None and phase is not None and phase not in phases:
            continue
        declared = first.value.keys if isinstance(first.value, Nested) else type(keys)
        proposed = whys.get(figure.attribute)
        why = proposed[1] if proposed is not None and figure.is_same(_with(figure, proposed[0])) else None
        yield KeyRow((*path, *inner), figure, declared, why)


def _with(figure: Figure, value: Any) -> Figure:
    return Figure(figure.key, value, figure.attribute)


def _whys_of_step(keys: StepKeys, proposal: Proposal | None) -> Mapping[str, tuple[Any, Why]]:
    """What the proposal has for a step of this title: each figure with its reason, by its attribute."""
    for step in proposal.steps if proposal is not None else ():
        if step.keys.title == keys.title and step.keys.kind is keys.kind:
            return {name: (_inner(step.keys, name), why) for name, why in step.why.items()}
    return {}


def _whys_of_bar(bar: DraftTable[BarKeys], proposal: Proposal | None) -> Mapping[str, tuple[Any, Why]]:
    for keys, whys in zip(proposal.bars, proposal.bar_whys, strict=True) if proposal is not None else ():
        if (keys.name, keys.steel) == (bar.keys.name, bar.keys.steel):
            return {name: (getattr(keys, name), why) for name, why in whys.items()}
    return {}


def _inner(keys: Any, name: str) -> Any:
    for one in name.split("."):
        keys = getattr(keys, one, None)
    return keys


def field_of(row: KeyRow, units: Units, wrong: str = "") -> Field:
    """One key as it is shown.

    Args:
        row: the key
        units: in which figures are shown
        wrong: what is wrong with what was typed; empty where nothing is
    """
    why = "" if row.why is None else f"{row.why.basis}: {plain(in_units(units.text(row.why.said), units))}"
    kind = row.figure.key.value
    words = tuple(word.value for word in kind.words) if isinstance(kind, Choice) else ()
    is_long = isinstance(kind, Paragraphs | Lines | Line)
    return Field(
        row.name, row.shown(units), row.figure.key.otherwise, wrong or why, bool(wrong), words, is_long, is_long
    )
