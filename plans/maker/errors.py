"""What can't be made as it was answered."""

from __future__ import annotations

from plans.errors import PlansError


class MakeError(PlansError):
    """An answer contradicts another, or itself; says which, why, and what to do."""

    def __init__(self, answer: str, why: str) -> None:
        self.answer = answer
        """The attribute of `plans.reader.AnswerKeys` that is at fault."""
        self.why = why
        """What is wrong with it, and what to do."""
        super().__init__(f"{answer}: {why}")
