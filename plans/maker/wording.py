"""The words of each step of a made plan: title, kind, instruction, checklist, cautions and cues, from words.toml."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping, Sequence
from enum import StrEnum
from functools import cache
from pathlib import Path
from string import Template
from typing import Any, Final

from plans.making import Part
from plans.phase import PhaseKind
from plans.plan import StepKind
from plans.reader import CuesKeys, StepKeys
from plans.text import paragraphs

WORDS_FILE: Final = Path(__file__).with_name("words.toml")
"""Where the words stand."""


def worded(
    part: Part, named: Mapping[str, str], phases: tuple[PhaseKind, ...] = (), special: Sequence[StrEnum] = ()
) -> StepKeys:
    """The step of a part of the work, with its words and no figures.

    Args:
        part: what part of the work it is
        named: what the $names of its words stand for
        phases: its phases; empty for the usual ones of its kind
        special: what is made, how it is built or what it is quenched in, where that may have words of its own for the
            part; the first that has some wins

    Raises:
        KeyError: a $name of its words is not among them.
    """
    own = (f"{one.value} {part.value}" for one in special)
    words = _words()[next((name for name in own if name in _words()), part.value)]

    def said(text: str) -> str:
        return Template(text).substitute(named).strip()

    cues = {phase: said(text) for phase, text in words.get("cues", {}).items() if not phases or phase in phases}
    return StepKeys(
        title=said(words["title"]),
        kind=StepKind(words["kind"]),
        instruction="\n\n".join(paragraphs(said(words["instruction"]))),  # a $name may come out empty
        phases=phases or None,
        checklist=tuple(said(line) for line in words.get("checklist", ())),
        cautions=tuple(said(line) for line in words.get("cautions", ())),
        cues=CuesKeys(**cues) if cues else None,
    )


@cache
def _words() -> dict[str, Any]:
    return tomllib.loads(WORDS_FILE.read_text(encoding="utf-8"))
