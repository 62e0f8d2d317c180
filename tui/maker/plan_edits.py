"""What can be done with the steps and bars of a plan, each as one change that can be taken back."""

from __future__ import annotations

from collections.abc import Callable

from plans.editing import Part, moved, removed, repeated, split_step, with_new_step
from plans.errors import PlanError
from plans.plan import StepKind
from plans.text import plain
from plans.toml import KeyPath
from tui.maker.work import Work
from tui.screens import Choice, Host, LineScreen, QuestionScreen


class PlanEdits:
    """Changes the plan that is on the bench.

    Args:
        work: the plan
        chosen: which part of it is chosen, as its path
        changed: called after a change, with the part that is to be chosen then; None for the one that was
        told: says why something can't be done
    """

    def __init__(
        self,
        work: Work,
        chosen: Callable[[], KeyPath],
        changed: Callable[[KeyPath | None], None],
        told: Callable[[str], None],
    ) -> None:
        self._work, self._chosen, self._changed, self._told = work, chosen, changed, told

    def add(self, host: Host) -> None:
        """A step more, below the chosen one, of a kind that is asked for."""
        chosen = self._chosen()
        at = int(chosen[1]) + 1 if chosen[:1] == ("step",) else 0

        def answered(kind: str | None) -> None:
            if kind is not None:
                units = self._work.known.units
                self._do(lambda plan: with_new_step(plan, at, StepKind(kind), units), ("step", at))

        kinds = [Choice(kind.value, kind.value[0], kind.value) for kind in StepKind]
        host.push_screen(QuestionScreen("A step of which kind?", kinds), answered)

    def repeat(self) -> None:
        """The chosen step or bar once more."""
        if (there := self._there()) is not None:
            part, number = there
            self._do(lambda plan: repeated(plan, part, number), (part, number + 1))

    def split(self, host: Host) -> None:
        """The chosen step in two, after some of its heats, which are asked for."""
        if (there := self._there()) is None:
            return
        part, number = there
        heats = self._work.plan.steps[number].heats if part == "step" else 1
        if heats < 2:
            self._told("only a step of two heats or more can be split")
            return

        def answered(typed: str | None) -> None:
            if typed is None:
                return
            if not typed.isdecimal():
                self._told(f'"{plain(typed)}" is no number of heats: write one from 1 to {heats - 1}')
                return
            self._do(lambda plan: split_step(plan, number, int(typed), self._work.known.units), ("step", number))

        asked = LineScreen(f"After how many of its {heats} heats?", str(heats // 2), chosen=True)
        host.push_screen(asked, answered)

    def move(self, by: int) -> None:
        """The chosen step or bar so many places down, up where that is below zero."""
        if (there := self._there()) is None:
            return
        part, number = there
        plan = self._work.plan
        if 0 <= number + by < len(plan.steps if part == "step" else plan.bars):
            self._do(lambda plan: moved(plan, part, number, number + by), (part, number + by))

    def take_out(self) -> None:
        """Take the chosen step or bar out."""
        if (there := self._there()) is not None:
            self._do(lambda plan: removed(plan, *there))

    def undo(self) -> None:
        """Take the last change back."""
        self._changed(None) if self._work.undo() else self._told("nothing was changed before this")

    def redo(self) -> None:
        """Take back that a change was taken back."""
        self._changed(None) if self._work.redo() else self._told("nothing was taken back")

    def _there(self) -> tuple[Part, int] | None:
        """The step or bar that is chosen, and its number; None where none is, which is told."""
        match self._chosen():
            case (("step" | "bar") as part, int(number)):
                return part, number
        self._told("choose a step or a bar first")
        return None

    def _do(self, edit: Callable[[str], str], choose: KeyPath | None = None) -> None:
        try:
            self._work.edit(edit(self._work.text))
        except PlanError as error:
            fault = error.faults[0]
            self._told("; ".join(one for one in (f"{fault.where} {fault.key} {fault.what}".strip(), fault.hint) if one))
            return
        self._changed(choose)
