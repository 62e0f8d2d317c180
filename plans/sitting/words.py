"""The smith's words as they are typed, on standard input or in a recording."""

from __future__ import annotations

from plans.errors import PlansError
from plans.measured import MeasuredError, read_measured, written_measured
from plans.sitting.events import Said, Word
from plans.sitting.ticks import read_tick, written_tick
from plans.text import plain
from plans.units import Units

LONGEST_NOTE = 1000
"""How long a note may be [characters]; one that is longer is cut, and says so at its end."""

_MOST_EARLIER = 3600
"""By how much a word can be moved back at once [s]."""


class WordError(PlansError):
    """There is no such word, or it means nothing just now; the text says why, and what would."""


def parse_word(text: str, at: float, more: int = 0, units: Units = Units.METRIC) -> Said:
    """The word that was typed, said at `at` [s].

    Capitals and blanks around don't matter. The text after `note` is kept as `note_text` has it, and what stands after
    `measured` or `tick` as `measured_text` and `tick_text` have it.

    Args:
        text: what was typed, or the beginning of it
        at: when it is said [s]
        more: how many characters it went on for
        units: those that are set, of which a bare figure of what was measured is

    Raises:
        WordError: there is no such word, a note without text, or another word with text after it.
    """
    name, *after = text.split(maxsplit=1) or [""]
    try:
        word = Word(name.lower())
    except ValueError:
        shown = plain(name).strip()[:30]
        raise WordError(f'there is no word "{shown}"; say {_words()}' if shown else f"say {_words()}") from None
    rest = after[0] if after else ""
    if word is Word.NOTE:
        rest = note_text(rest, more)
        check_note(rest)
    else:
        rest = plain(rest).strip()
    if word is Word.EARLIER and rest:
        rest = _seconds(rest)
    elif word is Word.MEASURED:
        rest = measured_text(rest, units)
    elif word is Word.TICK:
        rest = tick_text(rest)
    elif word is not Word.NOTE and rest:
        raise WordError(f'"{word}" stands alone on its line; to leave a line of text, say: note {rest[:30]}')
    return Said(at, word, rest)


def _seconds(text: str) -> str:
    """How much earlier, as it was typed: seconds, with or without their unit."""
    number = text.removesuffix("s").strip()
    if not number.isdecimal() or not 0 < int(number) <= _MOST_EARLIER:
        raise WordError(f'earlier by how much? say: earlier 30, in seconds, up to {_MOST_EARLIER}, not "{text[:20]}"')
    return number


def note_text(text: str, more: int = 0) -> str:
    """The text of a note as it is logged: `plain`, without blanks around, and no longer than `LONGEST_NOTE`.

    Args:
        text: what was typed, or the beginning of it
        more: how many characters it went on for

    Returns:
        the text; cut where it is too long, with how long it was at its end
    """
    whole = plain(text).strip()
    length = len(whole) + more
    if length <= LONGEST_NOTE:
        return whole
    told = f" ... [cut short, of {length} characters]"
    return whole[: LONGEST_NOTE - len(told)] + told


def measured_text(text: str, units: Units = Units.METRIC) -> str:
    """What was measured, as it is logged: every figure with its unit.

    Args:
        text: what was typed: "w 31.5 t 18"
        units: those that are set

    Raises:
        WordError: it can't be read; the text says why, and what would be right.
    """
    try:
        return written_measured(read_measured(text, units))
    except MeasuredError as error:
        raise WordError(str(error)) from None


def tick_text(text: str) -> str:
    """Which item of a checklist is ticked, as it is logged.

    Args:
        text: what was typed: "3", "step 2 item 3 off"

    Raises:
        WordError: it can't be read; the text says what would be right.
    """
    try:
        return written_tick(read_tick(text))
    except ValueError as error:
        raise WordError(str(error)) from None


def check_note(text: str) -> None:
    """Refuse a note without text.

    Raises:
        WordError: there is nothing in it.
    """
    if not text.strip():
        raise WordError("a note needs words: note what was seen")


def _words() -> str:
    return ", ".join(f"{word} ..." if word.has_text else word.value for word in Word)
