"""The options of `heatbook reckon`, made from the list of questions."""

from __future__ import annotations

import argparse
from collections.abc import Callable, Iterable, Sequence
from textwrap import fill
from typing import NoReturn

from plans.units import Units
from tui.reckoner import GROUPS, QUESTIONS, Field, Question

_WIDTH = 79
"""Width of the list of questions [characters]."""
_ABOUT_FROM = 16
"""Column from which it says what each answers."""
_EPILOG = (
    'Quantities are written as one says them: "1 1/4 in", "2300 degF", "4 min". Figures are computed in metric units; '
    "what was typed in inches or degF is answered so, but --json is always metric."
)


class _Formatter(argparse.RawDescriptionHelpFormatter):
    """An option takes one quantity, though its words need no quotes."""

    def _format_args(self, action: argparse.Action, default_metavar: str) -> str:
        name = str(action.metavar or default_metavar)
        return f"[{name}]" if action.nargs == "*" else name


class _Parser(argparse.ArgumentParser):
    known: Callable[[], str] | None = None
    """What help ends with; looked up only for help, since it takes reading a table."""

    def format_help(self) -> str:
        """The help, and then what is known."""
        said = super().format_help()
        return said if self.known is None else f"{said}\n{self.known()}\n"

    def error(self, message: str) -> NoReturn:
        """Say what is wrong, and how a value that looks like an option is written."""
        if "expected" in message:
            message += " (a value that begins with a minus goes behind an equals sign, as in --at=-20degC)"
        super().error(message)


def add_questions(reckon: argparse.ArgumentParser, units: Units, words: Sequence[str]) -> None:
    """Give the command `reckon` its questions, and those that are asked their options.

    Args:
        reckon: the parser of the command
        units: those in which the examples in its help are written
        words: what was typed after the command; where one of the questions is among it, no other is asked
    """
    reckon.formatter_class = argparse.RawDescriptionHelpFormatter
    # argparse lists all of them in one row of its own; without help there, it lists none.
    kinds = reckon.add_subparsers(dest="reckoning", metavar="WHAT", parser_class=_Parser, help="one of those below")
    asked = [QUESTIONS[name] for name in QUESTIONS if name in words]
    for question in asked or QUESTIONS.values():
        parser = kinds.add_parser(
            question.name,
            description=f"{question.about[0].upper()}{question.about[1:]}.",
            epilog="\n".join(["examples:", *(f"  heatbook reckon {units.text(one)}" for one in question.examples)]),
            formatter_class=_Formatter,
            allow_abbrev=False,
        )
        parser.known = question.known
        _add_fields(parser, question, units)
        form = parser.add_mutually_exclusive_group()
        form.add_argument("--svg", action="store_true", help="print the piece drawn to scale as SVG, where it has one")
        form.add_argument("--brief", action="store_true", help="print what was asked for alone, one figure a line")
        form.add_argument(
            "--json", action="store_true", help="print one JSON object, metric, units in its names, the answer's first"
        )
    if not asked:
        groups = [_listed(group, [QUESTIONS[name] for name in names]) for group, names in GROUPS.items()]
        reckon.epilog = "\n\n".join([*groups, fill(_EPILOG, _WIDTH)])


def _listed(name: str, group: Iterable[Question]) -> str:
    """The questions of a group, for help."""
    lines = [f"{name}:"]
    for question in group:
        called = f"  {question.name}".ljust(_ABOUT_FROM - 1) + " "
        lines.append(fill(question.about, _WIDTH, initial_indent=called, subsequent_indent=" " * _ABOUT_FROM))
    return "\n".join(lines)


def _add_fields(parser: argparse.ArgumentParser, question: Question, units: Units) -> None:
    for field in question.fields:
        about = f'{units.text(field.about)}, e.g. "{units.text(field.example)}"'.replace("%", "%%")
        if field.bare:
            parser.add_argument(field.name, nargs="*", metavar=field.stands_for, help=about)
        else:
            parser.add_argument(
                *_names(field),
                dest=field.name,
                nargs="+",
                required=field.needed,
                metavar=field.stands_for,
                help=about,
            )


def _names(field: Field) -> tuple[str, ...]:
    return tuple(f"--{name}" for name in (field.name, *field.also))
