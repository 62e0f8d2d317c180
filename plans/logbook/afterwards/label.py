"""What a smith has written on a sitting that was kept: a title of its own, a mark, and whether it is archived."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any, Final

from plans.logbook.errors import LogbookError
from plans.record import record
from plans.record_values import switch_of, text_of
from plans.text import plain

LONGEST_TITLE: Final = 80
"""Characters of a title of one's own: it stands on one line."""
LONGEST_MARK: Final = 20
"""Characters of a mark."""


@record
class Label:
    """What is written on a sitting afterwards; nothing to begin with."""

    title: str = ""
    """A title of its own; empty where it is called as its plan is."""
    mark: str = ""
    """A word that it is found by again, as `gift`; empty where it has none."""
    archived: bool = False
    """Whether it is left out of lists until somebody asks for what is archived."""

    def titled(self, text: str) -> Label:
        """This label with another title; an empty text takes the title away.

        Raises:
            LogbookError: it is too long.
        """
        return replace(self, title=_fitting("title", text, LONGEST_TITLE))

    def marked(self, text: str) -> Label:
        """This label with another mark; an empty text takes the mark away.

        Raises:
            LogbookError: it is no single word, or too long.
        """
        mark = _fitting("mark", text, LONGEST_MARK)
        if " " in mark:
            raise LogbookError(f'the mark "{mark}" is more than one word; write one, as "{mark.replace(" ", "-")}"')
        return replace(self, mark=mark)

    def put_by(self, archived: bool = True) -> Label:
        """This label, of a sitting that is archived, or is not any more."""
        return replace(self, archived=archived)

    def to_record(self) -> dict[str, Any]:
        """The label as a JSON object."""
        return {"title": self.title, "mark": self.mark, "archived": self.archived}

    @classmethod
    def from_record(cls, record: Mapping[str, Any]) -> Label:
        """The label from a JSON object that `to_record` made; an empty one is an empty label.

        Raises:
            ValueError, TypeError: it is no label.
        """
        title, mark = plain(text_of(record.get("title", ""))), plain(text_of(record.get("mark", "")))
        if len(title) > LONGEST_TITLE or len(mark) > LONGEST_MARK:
            raise ValueError("no label is so long")
        return cls(title, mark, switch_of(record.get("archived", False)))


def _fitting(what: str, text: str, longest: int) -> str:
    found = " ".join(plain(text).split())
    if len(found) > longest:
        more = len(found) - longest
        raise LogbookError(f"the {what} has {len(found)} characters and may have {longest}; leave {more} out")
    return found
