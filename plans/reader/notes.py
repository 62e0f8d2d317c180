"""What is odd in a plan that can be followed: steel from nowhere, steels that are not known, heats named by colour."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from plans.errors import Fault, FaultKind, PlanError
from plans.plan import Plan
from plans.reader.answer_file import made_from
from plans.reader.volume import check_volume
from plans.steel import SteelError, find_grade, near_to
from plans.text import printable
from plans.toml import KeyPath, TomlFaults, parse_toml

_MORE: Final = r"(?:(?:very |half )?(?:dark|dull|bright|light|full|clear|deep|low|high|medium|faint|cherry|blood)[ -])"
_COLOURS: Final = re.compile(
    rf"\b{_MORE}*(?:red|orange|yellow|white)[ -](?:heat|hot)\b"
    rf"|\b(?:cherry|blood)[ -]red\b"
    rf"|(?:(?<=\bat )|(?<=\bat a )|(?<=\bat an )|(?<=\buntil ))(?!an? ){_MORE}*(?:red|orange|yellow)\b",
    re.IGNORECASE,
)
"""Names of heats by their colour."""
_DEGREES: Final = re.compile(r"\d\s*(?:°|deg|[CFK]\b)")
_SENTENCES: Final = re.compile(r"(?<=[.;!?])\s+|\n")


def notes_on(plan: Plan, file: str) -> tuple[Fault, ...]:
    """What is odd in a plan that can be followed, by line; its kinds are warnings and notes.

    A warning is what can't be right. That it is no error has a reason: a plan that was followed once must be read again
    with its log, whatever has been found out about it since.

    Args:
        plan: that was read
        file: what a note calls its text
    """
    toml = parse_toml(plan.source.removeprefix("\ufeff"), file)
    faults = TomlFaults(toml, ("bar", "step"))
    for part, named in (("bar", [bar.name for bar in plan.bars]), ("step", [step.title for step in plan.steps])):
        for index, name in enumerate(named):
            faults.names[(part, index)] = f'{part} {index + 1} "{name}"'
    _check_steels(plan, faults)
    check_volume(plan, toml.values["step"], faults)
    _check_colours(plan, faults)
    found = (*faults.found, *_on_answers(plan, file))
    return tuple(sorted(found, key=lambda fault: fault.line or 0))


def _on_answers(plan: Plan, file: str) -> Iterator[Fault]:
    """What is wrong in the answers that a plan was made from: it can be followed, but not made anew from them."""
    try:
        made_from(plan.source, file)
    except PlanError as error:
        for fault in error.faults:
            hints = (fault.hint, "until that is right the plan can be followed, and can't be made anew")
            yield replace(fault, hint="; ".join(filter(None, hints)), kind=FaultKind.NOTE)


def _check_steels(plan: Plan, faults: TomlFaults) -> None:
    for index, bar in enumerate(plan.bars):
        try:
            find_grade(bar.steel)
        except SteelError:
            what = f'is "{printable(bar.steel)}", which is not among the steels known here'
            near = near_to(bar.steel)
            unwatched = "its ranges and its quench are not watched"
            known = "heatbook reckon steel --help lists them"
            hint = f"{near} {unwatched.capitalize()}" if near.endswith("?") else f"{near or known}; {unwatched}"
            faults.note(("bar", index, "steel"), what, hint, FaultKind.NOTE)


def _check_colours(plan: Plan, faults: TomlFaults) -> None:
    for path, text in _texts(plan):
        for sentence in _SENTENCES.split(text):
            found = _COLOURS.search(sentence)
            if found and not _DEGREES.search(sentence):
                what = f'names a heat by its colour alone ("{printable(found[0])}")'
                hint = "write the degrees beside it: charts and eyes differ by up to 200 K (360 degF)"
                faults.note(path, what, hint, FaultKind.NOTE)
                break


def _texts(plan: Plan) -> Iterator[tuple[KeyPath, str]]:
    """Every text that is read at the forge, with where it stands."""
    for index, step in enumerate(plan.steps):
        yield ("step", index, "title"), step.title
        yield ("step", index, "instruction"), step.instruction
        for key, lines in (("checklist", step.checklist), ("cautions", step.cautions)):
            for place, line in enumerate(lines):
                yield ("step", index, key, place), line
        for phase in step.phases:
            yield ("step", index, "cues", phase.kind.value), phase.cue
