"""What is metric in a text that was written for a smith who works in inches and degF."""

from __future__ import annotations

import re

from plans.steel import all_grades

_METRIC = re.compile(r"deg ?C\b|°C|\d ?[cm]m\b|\d m\b(?!:)|\d ?K\b(?!/)|[{}]")
_SOURCES = tuple(one.source.text for grade in all_grades() for one in grade.stated)
"""Published sources by name, one of which says at which rate its steels were heated, in K/h."""
_FORMULA = "in degC and mass %"
"""The units that a published formula is written in."""


def metric(text: str) -> list[str]:
    """What is metric in a text or still in braces, each with the words around it."""
    text = " ".join(text.split())
    for written in (*_SOURCES, _FORMULA):
        text = text.replace(" ".join(written.split()), " ")
    return [text[max(0, found.start() - 40) : found.end() + 10] for found in _METRIC.finditer(text)]
