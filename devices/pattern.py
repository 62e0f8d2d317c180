"""The form of a probe's lines: plain text with `{value}` where the temperature stands.

A form is matched by searching for its plain parts from left to right, never going back, so that the time for a line
grows with its length and no line and no form can hang the program. A regular expression could.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

_FIELDS = ("value", "seconds", "skip")
_PIECE = re.compile(r"\{\{|\}\}|\{([^{}]*)\}|([^{}]+)|([{}])")
_BLANKS = re.compile(r"\s+")


@dataclass(frozen=True, slots=True)
class Found:
    """What stood in the fields of one line, stripped of blanks."""

    value: str
    seconds: str | None = None


@dataclass(frozen=True, slots=True)
class Pattern:
    """A form of line, taken apart: a lead, then fields, each with the plain text that ends it."""

    lead: str
    fields: tuple[tuple[str, str], ...]
    """Field name and the plain text after it; empty after a field that runs to the end of the line."""

    def match(self, line: str) -> Found | None:
        """What stands in the fields, or None where the line has another form. Runs of blanks count as one."""
        rest = _BLANKS.sub(" ", line).strip()
        if not rest.startswith(self.lead):
            return None
        rest = rest[len(self.lead) :]
        found: dict[str, str] = {}
        for name, end in self.fields:
            if end:
                text, there, rest = rest.partition(end)
                if not there:
                    return None
            else:
                text, rest = rest, ""
            found[name] = text.strip()
        return None if rest else Found(found["value"], found.get("seconds"))


def parse_pattern(text: str) -> Pattern:
    """Take a form apart.

    `{value}` is the temperature, `{seconds}` the probe's own clock, `{skip}` anything; `{{` and `}}` are braces.
    Blanks in front of a field are optional, all others must be there.

    Raises:
        ValueError: the form is unusable; the text says why.
    """
    plain = [""]
    names: list[str] = []
    for match in _PIECE.finditer(_BLANKS.sub(" ", text).strip()):
        field, words, stray = match.groups()
        if stray is not None:
            raise ValueError(f'a single "{stray}" at character {match.start() + 1}; for a brace itself write it twice')
        if field is None:
            plain[-1] += words if words is not None else match.group()[0]
            continue
        if field not in _FIELDS:
            raise ValueError(f"there is no field {{{field}}}, only {{value}}, {{seconds}} and {{skip}}")
        if names and not plain[-1].strip():
            if not plain[-1]:
                raise ValueError(f"{{{names[-1]}}} and {{{field}}} need some plain text between them")
        else:
            plain[-1] = plain[-1].rstrip()
        names.append(field)
        plain.append("")
    if names.count("value") != 1:
        raise ValueError("there must be one {value}, where the temperature stands")
    if names.count("seconds") > 1:
        raise ValueError("there is more than one {seconds}")
    return Pattern(plain[0], tuple(zip(names, plain[1:], strict=True)))
