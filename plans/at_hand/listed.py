"""The plans at hand as a list shows them: by a glance at each file first, and whole when somebody looks at it.

To read a plan takes 3 ms, and a list of forty must stand there at once. So its title and its group are picked out of
the file's lines to begin with; they are those of the plan in any file that is written as the ones that ship are.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from pathlib import Path
from typing import Final

from plans.at_hand.groups import Group, group_of
from plans.at_hand.words import has_words, words_of
from plans.plan import StepKind
from plans.reader import MOST_BYTES, PlanFile, ShelfPlan, files_at_hand, read_entry
from plans.record import record
from plans.toml import TomlError, read_text
from plans.units import Units

_TITLE: Final = re.compile(r'^title *= *"([^"\\\n]+)" *(?:#.*)?$', re.MULTILINE)
_KIND: Final = re.compile(r'^kind *= *"([a-z]+)" *(?:#.*)?$', re.MULTILINE)
_ABOUT: Final = re.compile(r'^about *= *"""\n?([^"\\]+)"""', re.MULTILINE)
_STEP: Final = re.compile(r'^\[\[step\]\]\ntitle *= *"([^"\\\n]+)" *(?:#.*)?$', re.MULTILINE)
_KINDS: Final = {kind.value: kind for kind in StepKind}


@record
class ListedPlan:
    """A plan of the list, as far as its file has been read."""

    file: PlanFile
    """Its file."""
    title: str
    """What it is called; its name where the file can't be used."""
    group: Group
    """What it is for."""
    about: str = ""
    """What it is about, in paragraphs; empty where the glance did not find it."""
    steps: tuple[str, ...] = ()
    """The titles of its steps, as far as the glance found them."""
    found: ShelfPlan | None = None
    """The plan, or what is wrong with its file; None while it has only been glanced at."""

    @property
    def name(self) -> str:
        """File name without its ending: what the plan is called on the command line."""
        return self.file.name

    @property
    def is_usable(self) -> bool:
        """Whether its file can be used, as far as has been seen."""
        return self.found is None or self.found.plan is not None

    def read(self) -> ListedPlan:
        """Read the file, if that has not been done: the entry as it is listed then."""
        return self if self.found is not None else of_found(self.file, read_entry(self.file))

    def has_words(self, wanted: str, units: Units) -> bool:
        """Whether it is found by words; by all its texts once its file has been read.

        Args:
            wanted: the words
            units: those in which its texts are shown
        """
        plan = self.found.plan if self.found is not None else None
        return has_words(f"{self.name}\n{self.title}" if plan is None else words_of(plan, units), wanted)


def list_plans(own_folder: Path | None) -> list[ListedPlan]:
    """All plans at hand, each glanced at, in the order in which they are shown.

    Args:
        own_folder: the smith's own plans; it need not be there
    """
    return in_order(_glance_at(file) for file in files_at_hand(own_folder))


def in_order(plans: Iterable[ListedPlan]) -> list[ListedPlan]:
    """Plans in the order in which they are shown: group by group, and by name."""
    groups = list(Group)
    return sorted(plans, key=lambda plan: (groups.index(plan.group), plan.name))


def of_found(file: PlanFile, found: ShelfPlan) -> ListedPlan:
    """A plan of the list, from what its file holds.

    Args:
        file: the file
        found: the plan, or what is wrong with it
    """
    plan = found.plan
    if plan is None:
        return ListedPlan(file, file.name, Group.UNUSABLE, found=found)
    return ListedPlan(file, plan.title, group_of({step.kind for step in plan.steps}), found=found)


def _glance_at(file: PlanFile) -> ListedPlan:
    try:
        text = read_text(file.path, MOST_BYTES)
    except TomlError:
        return ListedPlan(file, file.name, Group.UNUSABLE).read()
    title = _TITLE.search(text.split("\n[", 1)[0])
    kinds = {_KINDS[kind] for kind in _KIND.findall(text) if kind in _KINDS}
    if title is None or not kinds:
        return ListedPlan(file, file.name, Group.UNUSABLE).read()
    about = _ABOUT.search(text)
    return ListedPlan(file, title[1], group_of(kinds), about[1].strip() if about else "", tuple(_STEP.findall(text)))
