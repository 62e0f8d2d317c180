"""What stands at the side of a wide terminal: what there is to read about the step, and the steps of the plan."""

from __future__ import annotations

from collections.abc import Sequence

from textual.app import ComposeResult
from textual.content import Content

from tui.widgets import StepLine, StepList, StillColumn, StillText


class Side(StillColumn):
    """Two parts, one above the other: the text of the step, and the steps with the one at hand marked.

    Args:
        id: by which it is found
        blocks: what signs are drawn with
    """

    DEFAULT_CSS = """
    Side { padding: 1 2 0 2; }
    Side #side-text { height: auto; max-height: 65%; overflow: hidden hidden; }
    Side #steps { height: 1fr; min-height: 4; margin-top: 1; }
    """

    def __init__(self, *, id: str, blocks: bool) -> None:
        super().__init__(id=id)
        self._blocks = blocks

    def compose(self) -> ComposeResult:
        with StillColumn(id="side-text"):
            yield StillText(id="side-words", markup=False)
        yield StepList(id="steps", blocks=self._blocks)

    def tell(self, words: Content, steps: Sequence[StepLine], current: int, under_way: bool) -> None:
        """Another step, or another heat of it.

        Args:
            words: what there is to read
            steps: of the plan, with the heats that are done
            current: which of them is at hand, from 0; as many as there are when all are done
            under_way: whether a heat of it is
        """
        self.query_one("#side-words", StillText).update(words)
        self.query_one(StepList).show(steps, current, under_way)
