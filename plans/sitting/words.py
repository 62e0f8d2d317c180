"""The smith's words as they are typed, on standard input or in a recording."""

from __future__ import annotations

from plans.sitting.events import Said, Word
from plans.text import plain

LONGEST_NOTE = 1000
"""How long a note may be [characters]; what it has beyond is cut off."""

_MOST_EARLIER = 3600
"""By how much a word can be moved back at once [s]."""


class WordError(ValueError):
    """There is no such word, or it means nothing just now; the text says why, and what would."""


def parse_word(text: str, at: float) -> Said:
    """The word that was typed, said at `at` [s].

    Capitals and blanks around don't matter; only `note` has text after it, which is kept as `plain` has it.

    Raises:
        WordError: there is no such word, a note without text, or another word with text after it.
    """
    name, *after = text.split(maxsplit=1) or [""]
    try:
        word = Word(name.lower())
    except ValueError:
        shown = plain(name).strip()[:30]
        raise WordError(f'there is no word "{shown}"; say {_words()}' if shown else f"say {_words()}") from None
    rest = plain(after[0]).strip()[:LONGEST_NOTE] if after else ""
    if word is Word.NOTE:
        check_note(rest)
    if word is Word.EARLIER and rest:
        rest = _seconds(rest)
    elif word is not Word.NOTE and rest:
        raise WordError(f'"{word}" stands alone on its line; to leave a line of text, say: note {rest[:30]}')
    return Said(at, word, rest)


def _seconds(text: str) -> str:
    """How much earlier, as it was typed: seconds, with or without their unit."""
    number = text.removesuffix("s").strip()
    if not number.isdecimal() or not 0 < int(number) <= _MOST_EARLIER:
        raise WordError(f'earlier by how much? say: earlier 30, in seconds, up to {_MOST_EARLIER}, not "{text[:20]}"')
    return number


def check_note(text: str) -> None:
    """Refuse a note without text.

    Raises:
        WordError: there is nothing in it.
    """
    if not text.strip():
        raise WordError("a note needs words: note what was seen")


def _words() -> str:
    return ", ".join("note ..." if word is Word.NOTE else word.value for word in Word)
