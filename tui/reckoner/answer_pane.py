"""The answer on two pages: what was asked for, large; and behind it everything, with what it stands on."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import Container, VerticalScroll
from textual.content import Content
from textual.widgets import Static

from plans.reckoner import Reckoning
from plans.text import plain
from plans.units import Units
from tui.reckoner.answer_text import answer_text
from tui.reckoner.headline import Headline


class AnswerPane(Container):
    """What comes of what is given, or what is wrong with it."""

    DEFAULT_CSS = """
    AnswerPane { width: 1fr; height: 1fr; }
    AnswerPane #answer { width: 1fr; height: 1fr; }
    """

    def __init__(self) -> None:
        super().__init__()
        self._found: Reckoning | None = None
        self._wrong = ""
        self._units = Units.METRIC
        self.behind = False
        """Whether what the answer stands on is looked at, in place of the large figures."""

    def compose(self) -> ComposeResult:
        yield Headline()
        with VerticalScroll(id="answer", can_focus=False):
            yield Static(id="words", markup=False)

    def show(self, found: Reckoning, units: Units, whose: str = "") -> None:
        """Show an answer, on the page that is looked at; `whose` it is stands above the large figures."""
        self._found, self._units = found, units
        self._wrong = ""
        self.query_one(Headline).show(found, units, whose)
        self._turn()

    def refuse(self, wrong: str) -> None:
        """Say what is wrong."""
        self._found, self._wrong = None, plain(wrong)
        self._turn()

    @property
    def words(self) -> Content:
        """What the answer stands on, or what is wrong."""
        if self._found is None:
            return Content(self._wrong)
        return answer_text(self._found, self.size.width - 1, self._units)

    def on_resize(self) -> None:
        self._write()

    def _write(self) -> None:
        if self._text.display:
            self.query_one("#words", Static).update(self.words)

    @property
    def rows_needed(self) -> int:
        """Rows that the large figures take; none where they are not looked at."""
        if self._found is None or self.behind:
            return 0
        return self.query_one(Headline).rows_needed

    def begin(self) -> None:
        """Look at the large figures, as for every question at first."""
        self.behind = False
        self._turn()

    def further(self) -> None:
        """From the large figures to what they stand on, and further down there."""
        if self.behind or self._found is None:
            self._text.scroll_page_down(animate=False)
        else:
            self.behind = True
            self._text.scroll_home(animate=False)
            self._turn()

    def nearer(self) -> None:
        """Further up, and from the top back to the large figures."""
        if self._text.scroll_y > 0:
            self._text.scroll_page_up(animate=False)
        else:
            self.begin()

    @property
    def _text(self) -> VerticalScroll:
        return self.query_one("#answer", VerticalScroll)

    def _turn(self) -> None:
        large = self._found is not None and not self.behind
        self.query_one(Headline).display = large
        self._text.display = not large
        self._write()
