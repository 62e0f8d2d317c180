"""A plan as the keys that its file shall hold, before it is a text: what the maker proposes, and what is written."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field, replace
from typing import TYPE_CHECKING, Generic, TypeVar

from plans.reader import BarKeys, PlanKeys, StepKeys, read_keys, read_plan
from plans.record import record
from plans.toml import TomlFaults, TomlTable, parse_toml

if TYPE_CHECKING:
    from _typeshed import DataclassInstance

Table = TypeVar("Table", BarKeys, StepKeys)


@record(eq=False)
class DraftTable(Generic[Table]):
    """A bar or a step of a plan."""

    keys: Table
    """Its keys."""
    why: Mapping[str, str] = field(default_factory=dict)
    """Where a figure comes from, for the comment beside it: by the attribute, in a nested table by both, as in
    "quench.medium"; those without one are left out."""
    part: str = ""
    """What part of the work it is: two drafts of one plan tell by it which of their steps are the same. Its title
    where it is empty."""


@record(eq=False)
class Draft:
    """A whole plan."""

    head: PlanKeys
    """Its version, title and what it is about; the bars and steps stand apart, and those of the head are empty."""
    bars: tuple[DraftTable[BarKeys], ...] = ()
    """The bars that it starts from."""
    steps: tuple[DraftTable[StepKeys], ...] = ()
    """Its steps, in order."""
    made_from: DataclassInstance | None = None
    """The answers that it was made from, an object of a dataclass that declares keys; None where there are none."""


def draft_of(text: str, file: str) -> Draft:
    """The draft that a plan's text holds, without its comments.

    Args:
        text: of a plan's file
        file: what an error calls it

    Raises:
        PlanError: the plan can't be used; it holds every fault that was found.
    """
    read_plan(text, "", file)
    toml = parse_toml(text, file)
    table = TomlTable(TomlFaults(toml), (), toml.values)
    head = read_keys(table, PlanKeys)
    bars = tuple(DraftTable(read_keys(one, BarKeys)) for one in head.bar)
    steps = tuple(DraftTable(read_keys(one, StepKeys)) for one in head.step)
    return Draft(replace(head, bar=(), step=(), made_from=None), bars, steps, head.made_from)
