"""The form that a probe's lines have, such as `t: {value} C`: plain text with `{value}` where the temperature stands.

A form is matched by searching for its plain parts from left to right, never going back, so that the time for a line
grows with its length and no line and no form can hang the program. A regular expression could.
"""

from __future__ import annotations

import re

from plans.record import record

_FIELDS = ("value", "skip")
_PIECE = re.compile(r"\{\{|\}\}|\{([^{}]*)\}|([^{}]+)|([{}])")
_BLANKS = re.compile(r"\s+")


@record
class Pattern:
    """A form of line, taken apart: plain text that the line begins with, then fields with the plain text after each."""

    lead: str
    """Plain text in front of the first field; may be empty."""
    fields: tuple[tuple[str, str], ...]
    """Each field's name ("value", once, or "skip") and the plain text after it, in order; that text is empty after a
    field that runs to the end of the line."""

    def match(self, line: str) -> str | None:
        """What stands where the temperature is meant to, stripped of blanks; None where the line has another form.

        Runs of blanks in the line count as one.
        """
        rest = _BLANKS.sub(" ", line).strip()
        if not rest.startswith(self.lead):
            return None
        rest = rest[len(self.lead) :]
        value = ""
        for name, end in self.fields:
            if end:
                text, there, rest = rest.partition(end)
                if not there:
                    return None
            else:
                text, rest = rest, ""
            if name == "value":
                value = text.strip()
        return None if rest else value


def parse_pattern(text: str) -> Pattern:
    """Take the form of a probe's lines apart, so that lines can be matched against it.

    Blanks in front of a field are optional in the line, all others must be there.

    Args:
        text: a line with fields in it: `{value}`, once, where the temperature stands, and `{skip}` for anything; plain
            text between any two of them. `{{` and `}}` stand for braces.

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
            raise ValueError(f"there is no field {{{field}}}, only {{value}} and {{skip}}")
        if names and not plain[-1].strip():
            if not plain[-1]:
                raise ValueError(f"{{{names[-1]}}} and {{{field}}} need some plain text between them")
        else:
            plain[-1] = plain[-1].rstrip()
        names.append(field)
        plain.append("")
    if names.count("value") != 1:
        raise ValueError("there must be one {value}, where the temperature stands")
    return Pattern(plain[0], tuple(zip(names, plain[1:], strict=True)))
