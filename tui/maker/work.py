"""What is being made: the answers as typed, what they give, and the plan's text with what was changed in it by hand."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING

from plans.editing import MADE_FROM, Difference, Draft, History, Remade, difference, remake
from plans.errors import PlanError
from plans.maker import MakeError, Proposal, apart_from, draft_of_proposal, propose, text_of
from plans.prose import in_units
from plans.reader import PlanFile, made_from, read_plan
from plans.record import record
from plans.toml import parse_toml, shown_path
from plans.units import Units
from tui.maker.answers import AnswerError, read_typed, typed_of

if TYPE_CHECKING:
    from plans.blows import StruckBy
    from plans.plan import Plan
    from plans.reckoned import Reckoned
    from plans.shop import Shop
    from plans.stock import RackBar


@record(eq=False)
class Known:
    """What is known of the smith and his shop before anything is answered."""

    units: Units
    """In which he works."""
    shop: Shop
    """His own figures."""
    rack: tuple[RackBar, ...]
    """The bars that he has."""
    reduction: Callable[[StruckBy], Reckoned | None]
    """What a heat takes off in his shop, by what strikes; None where his logbook tells of none."""
    scale: Callable[[], Reckoned | None] = lambda: None
    """Share of the steel that a heat takes as scale there; None where too little was measured."""


@record(eq=False)
class Made:
    """What a set of answers gives."""

    proposal: Proposal
    """The plan, every figure with its reason."""
    draft: Draft
    """The keys of its file."""
    text: str
    """Its file."""


def make(typed: Mapping[str, str], known: Known) -> Made:
    """Make a plan of what was typed; for a thread.

    Raises:
        AnswerError: a text can't be taken for an answer.
        MakeError: an answer contradicts another.
    """
    answers = read_typed(typed)
    proposal = propose(answers, known.units, known.rack, known.reduction(answers.struck_by), known.scale())
    return Made(proposal, draft_of_proposal(proposal, known.units), text_of(proposal, known.units))


@lru_cache(maxsize=4)
def _read(text: str) -> Plan:
    return read_plan(text, "", "plan")


@lru_cache(maxsize=4)
def _is_apart(proposed: str, text: str) -> bool:
    return proposed != text and not apart_from(proposed, text).figures.is_empty


class Work:
    """A plan on the bench.

    Args:
        known: what is known of the smith
        file: the plan that is changed; None for a new one
        text: of that file
    """

    def __init__(self, known: Known, file: PlanFile | None = None, text: str = "") -> None:
        self.known = known
        self.file = file
        """The file that it was read from or written to; None for a plan that was never written."""
        self.typed: dict[str, str] = {}
        """The answers, by their attributes."""
        self.base: Made | None = None
        """What the plan's text was made of before anything was changed by hand; None where that is not known."""
        self.made: Made | None = None
        """What the answers give, the last time that they gave anything."""
        self.history: History | None = None
        """The plan's text with what was changed in it; None before there is one."""
        self.saved = text
        """The text as it was read or last written; empty where it never was."""
        self.is_answered = True
        """Whether it is made from answers, which can be changed."""
        if text:
            self.history = History(text)
            values = parse_toml(text, self._called).values
            table = values.get(MADE_FROM)
            self.is_answered = MADE_FROM in values
            self.typed = typed_of(table) if isinstance(table, dict) else {}
            if "scale" not in self.typed:
                # It was made with the usual loss, and is not to become another plan by being opened.
                self.known = replace(known, scale=lambda: None)

    @property
    def text(self) -> str:
        """The plan's text; empty before there is one."""
        return "" if self.history is None else self.history.text

    @property
    def _called(self) -> str:
        """What an error calls its file."""
        return shown_path(self.file.path) if self.file is not None else "plan"

    @property
    def title(self) -> str:
        """What the plan is called."""
        return in_units(_read(self.text).title, self.known.units) if self.text else ""

    @property
    def name(self) -> str:
        """What its file is called, without the ending; empty where it has none of the smith's own."""
        return self.file.name if self.file is not None else ""

    @property
    def plan(self) -> Plan:
        """The plan, which can be followed."""
        return _read(self.text)

    @property
    def is_changed_by_hand(self) -> bool:
        """Whether the text is another than its answers gave."""
        return self.history is not None and (self.base is None or self.text != self.base.text)

    @property
    def is_behind(self) -> bool:
        """Whether the answers give another plan than the one that the text was made from."""
        return self.made is not None and self.base is not None and self.made.text != self.base.text

    @property
    def is_unsaved(self) -> bool:
        """Whether something would be lost: answers or changes that no file holds."""
        if not self.saved:
            return any(text.strip() for text in self.typed.values()) or self.is_changed_by_hand
        return self.text != self.saved or self.is_behind

    def begin(self) -> str:
        """Make the plan of its answers as they were read; for a thread.

        Returns:
            why they can't be changed, where they give no plan any more; empty where they do
        """
        if self.is_answered:
            try:
                if self.saved:
                    made_from(self.saved, self._called)
                self.take(make(self.typed, self.known))
            except (AnswerError, MakeError, PlanError) as error:
                self.is_answered = False
                said = error.faults[0] if isinstance(error, PlanError) else error
                return f"what this plan was made from gives no plan any more, so that it is changed by hand: {said}"
        return ""

    def take(self, made: Made) -> None:
        """Take what the answers give. A plan in which nothing was changed by hand is that from now on."""
        self.made = made
        if self.history is not None and self.base is None:
            self.base = made  # of a file: its answers as they stood there
        elif not self.is_changed_by_hand:
            self.base, self.history = made, History(made.text)

    @property
    def is_apart(self) -> bool:
        """Whether figures of the plan are others than its answers give: changed by hand, or not made anew yet."""
        return self.made is not None and bool(self.text) and _is_apart(self.made.text, self.text)

    @property
    def has_other_answers(self) -> bool:
        """Whether the plan, as it was read, seems to have been made from other answers than stand in it: it starts from
        other bars, or is about another piece."""
        if not self.is_apart or self.text != self.saved:
            return False
        differs = self.differs
        return bool(differs.bars) or any(one.key == "about" for one in differs.head)

    @property
    def differs(self) -> Difference:
        """What would change in the plan if it were made anew from its answers."""
        assert self.made is not None
        return difference(self.text, self.made.text)

    def make_anew(self) -> None:
        """Let the plan be what its answers give, whatever was changed in it by hand; that can be taken back."""
        assert self.history is not None
        assert self.made is not None
        self.history, self.base = self.history.to(self.made.text), self.made

    def remade(self) -> Remade | None:
        """The plan for the changed answers, with what was changed by hand; None where it is not behind them.

        Raises:
            PlanError: the two can't be brought together.
        """
        if not self.is_behind or self.made is None or self.base is None:
            return None
        return remake(self.base.draft, self.text, self.made.draft, self.known.units)

    def take_remade(self, remade: Remade) -> None:
        """Let the plan follow its answers."""
        assert self.history is not None
        self.history, self.base = self.history.to(remade.text), self.made

    def edit(self, text: str) -> None:
        """Take the text of the plan after an edit."""
        assert self.history is not None
        self.history = self.history.to(text)

    def undo(self) -> bool:
        """Take the last change back; whether there was one."""
        return self._to(self.history.undone() if self.history is not None else None)

    def redo(self) -> bool:
        """Take back that a change was taken back; whether one was."""
        return self._to(self.history.redone() if self.history is not None else None)

    def _to(self, history: History | None) -> bool:
        changed = history is not None and history is not self.history
        self.history = history
        return changed

    def wrote(self, path: Path) -> None:
        """Take note of where the text has been written."""
        self.file = PlanFile(path.name.removesuffix(".toml"), path, True)
        self.saved = self.text
