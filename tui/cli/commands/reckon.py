"""`heatbook reckon`: the steel's own arithmetic."""

from __future__ import annotations

import argparse
import shutil
import sys
import textwrap
from collections.abc import Iterable, Iterator

from tui.config import UsageError, units_set

_NARROWEST, _WIDEST = 60, 100
"""Lines are broken to the terminal's width within these."""


def run(chosen: argparse.Namespace) -> int:
    """Answer `reckon cooling`, `reckon soak` and so on; without a question, show the reckoner."""
    if chosen.reckoning is not None:
        return _answer(chosen)
    if not sys.stdout.isatty():
        from tui.reckoner import QUESTIONS

        raise UsageError(f"reckon what? {', '.join(QUESTIONS)}; on a terminal, none of them shows the reckoner")
    from tui.cli.on_screen import show
    from tui.running import Reckoner

    return show(Reckoner())


def _answer(chosen: argparse.Namespace) -> int:
    from plans.reckoner import ReckonError
    from plans.text import printable
    from tui.reckoner import QUESTIONS

    question = QUESTIONS[chosen.reckoning]
    typed = {field.name: " ".join(getattr(chosen, field.name) or ()) for field in question.fields}
    units = question.units_typed(typed, units_set())
    try:
        found = question.ask(typed, units)
    except ReckonError as error:
        raise UsageError(f"{question.option(error.given)}: {error.why}") from None
    if chosen.json:
        import json

        print(json.dumps(found.record, indent=2, ensure_ascii=False))
        return 0
    if chosen.svg:
        from plans.drawing import as_svg

        if found.drawing is None:
            raise UsageError(f"--svg: {question.name} has no piece that is drawn to scale")
        print(as_svg(found.drawing, units))
        return 0
    for line in found.brief(units) if chosen.brief else _broken(found.lines(units)):
        print(printable(line))
    return 0


def _broken(lines: Iterable[str]) -> Iterator[str]:
    """The lines, those that are too long broken between words."""
    width = min(max(shutil.get_terminal_size().columns, _NARROWEST), _WIDEST)
    for line in lines:
        yield from textwrap.wrap(
            line, width, subsequent_indent="    ", break_long_words=False, break_on_hyphens=False
        ) or [""]
