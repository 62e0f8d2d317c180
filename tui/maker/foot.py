"""The foot of the maker: what the cursor stands in, what is wrong with it, and what the keys do there."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.widgets import Static

from plans.text import plain
from plans.units import Units
from tui.actions import Place
from tui.maker.pages import Pages
from tui.screens import keys_at_foot
from tui.widgets import Key, KeyLine, SplitLine


class Foot(Vertical):
    """Up to three rows for what is wrong, one for the hint, one or two for the keys.

    Args:
        units: in which figures are shown
    """

    DEFAULT_CSS = """
    Foot { height: auto; }
    Foot #wrong { height: auto; max-height: 3; padding: 0 1; }
    Foot #hint { background: $surface; }
    Foot #keys { background: $surface; }
    """

    def __init__(self, units: Units) -> None:
        super().__init__()
        self._units = units

    def compose(self) -> ComposeResult:
        yield Static(id="wrong")
        yield SplitLine(id="hint")
        yield KeyLine(id="keys")

    def tell(self, pages: Pages, *, narrow: bool) -> None:
        """Say all of it.

        Args:
            pages: where the cursor stands
            narrow: whether the keys of the plan's steps need a second row
        """
        self.hint(pages)
        keys = self.query_one("#keys", KeyLine)
        keys.styles.height = 2 if narrow and pages.part == "steps" else 1
        keys.show(self._keys(pages))

    def hint(self, pages: Pages) -> None:
        """Say what the cursor stands in, and what is wrong with what was typed."""
        told = self.query_one("#wrong", Static)
        told.display = bool(pages.wrong)
        told.update(Content.assemble((" ! ", "bold reverse $error"), f" {plain(pages.wrong)}"))
        self.query_one("#hint", SplitLine).show(*self._hint(pages))

    def _hint(self, pages: Pages) -> tuple[str, ...]:
        match pages.part:
            case "fields" if pages.on_plan and (row := pages.plan.row) is not None:
                return f"{row.name}: {row.meaning}", f"e.g. {row.figure.key.example.replace(chr(34), '')}"
            case "fields" if not pages.on_plan:
                return tuple(self._units.text(one) for one in pages.questions.hint)
            case "doubts":
                return ("enter to the answer that would mend it",)
        if pages.on_plan:
            return ("enter: into its keys; steel: share of the stock that it leaves of the work",)
        return ("← → another page; ↓ into it; 2 to the plan step by step",)

    def _keys(self, pages: Pages) -> list[Key]:
        part = pages.part
        only: tuple[str, ...]
        if part == "fields":
            only = ("maker.why", "maker.leave")
        elif part == "steps":
            only = (
                *("maker.write", "maker.add", "maker.take-out", "maker.repeat", "maker.split", "maker.raise"),
                *("maker.lower", "maker.undo", "maker.redo", "maker.leave"),
            )
        else:
            only = ("maker.write", "maker.by-hand", "maker.doubts", "maker.leave")
        keys = keys_at_foot(self, Place.MAKER, only=only)
        if part != "fields":
            return keys
        return [
            ("enter", "next", "enter"),
            ("↑ ↓", "fields", "along(1)"),
            ("F3 F4", "pages", "page(1)"),
            *keys[:-2],
            ("esc", "done", "leave"),
            keys[-1],
        ]
