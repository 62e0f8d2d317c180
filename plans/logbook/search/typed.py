"""Finding sittings: what is typed into a search line or behind `--where`, read into conditions that a sitting meets.

    drawknife "the weld opened" steel: 1084 since: 2026-03 peak > 1300 degC, too cold > 10 s

Words stand by themselves and are looked for in everything; behind a name with a colon, in that alone; a figure is held
against a quantity with its unit. All of it must be met. A comma between two of them may stand or be left out.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from datetime import date, timedelta
from typing import Final

from plans.at_hand import has_words
from plans.errors import PlansError
from plans.logbook.search.figures import FIGURES, TEXTS, all_texts
from plans.logbook.search.words import SIGNS, Word, words_in
from plans.logbook.summary import Progress, Summary
from plans.quantities import QuantityError, parse
from plans.quantity_grammar import EXAMPLES
from plans.record import record
from plans.text import clean
from plans.units import Units

Condition = Callable[[Summary, Units], bool]
"""Whether a sitting meets it; in the units in which its texts are shown."""


@record
class Search:
    """What is looked for."""

    conditions: tuple[Condition, ...] = ()
    """All that a sitting must meet; none is met by every sitting."""
    archived: bool = False
    """Whether sittings that are archived are looked for, and no others."""
    figure: str = ""
    """The name of a figure that stands there as a word, with no sign behind it; empty where none does."""

    @property
    def hint(self) -> str:
        """What may have been meant where nothing is found; empty for nothing else."""
        if not self.figure:
            return ""
        example = FIGURES[self.figure].example
        return f'"{self.figure}" is looked for as a word; for the figure, write > or < behind it, and then {example}'

    def found(self, summaries: Iterable[Summary], units: Units) -> list[Summary]:
        """Those that meet it, in the order in which they come.

        Args:
            summaries: the sittings
            units: those in which their texts are shown, and so looked for
        """
        return [
            one
            for one in summaries
            if one.label.archived == self.archived and all(meets(one, units) for meets in self.conditions)
        ]


class SearchError(PlansError):
    """What is looked for can't be understood; the text says which part of it, why, and what would be right."""

    so_far: Search = Search()
    """What stands before that part."""


def read_search(text: str) -> Search:
    """What a text looks for; an empty one looks for all that is not archived.

    Raises:
        SearchError: it can't be understood.
    """
    words = words_in(text)
    conditions: list[Condition] = []
    archived, unheld, at = False, "", 0
    try:
        while at < len(words):
            if (figure := _figure_at(words, at)) is not None:
                condition, at = _held_against(figure, words, at)
                conditions.append(condition)
            elif (name := words[at].names) is None:
                unheld = unheld or _named_at(words, at)
                conditions.append(_anywhere(words[at].text))
                at += 1
            else:
                value, at = _behind_colon(name, words, at)
                if name == "is" and value.casefold() == _ARCHIVED:
                    archived = True
                else:
                    conditions.append(_about(name, value, f"{name}: {value}"))
    except SearchError as error:
        error.so_far = Search(tuple(conditions), archived)
        raise
    return Search(tuple(conditions), archived, unheld)


# Words, and what they are looked for in


_STATES: Final = {state.value: state for state in Progress}
_ARCHIVED: Final = "archived"
_DAYS: Final = ("since", "until", "on")
_YEAR: Final = len("2026")
_NAMES: Final = (*TEXTS, *_DAYS, "is")


def _anywhere(words: str) -> Condition:
    """In any text; or the day on which it began, as a list shows it, or the beginning of that from its year on."""
    begins = "" if len(words) < _YEAR else words
    return lambda summary, units: (
        _has(all_texts(summary, units), words) or (bool(begins) and f"{summary.started:%Y-%m-%d}".startswith(begins))
    )


def _has(text: str, phrase: str) -> bool:
    """Whether a text has a word; of a text in quotes, all of it as it stands."""
    return phrase.casefold() in text.casefold() if " " in phrase else has_words(text, phrase)


def _behind_colon(name: str, words: list[Word], at: int) -> tuple[str, int]:
    """What stands behind the colon of a name, and where it goes on."""
    part = words[at].text
    if name not in _NAMES:
        near = _near(name, _NAMES)
        perhaps = f'perhaps "{near}:"; ' if near else ""
        known = ", ".join(f"{one}:" for one in _NAMES)
        raise SearchError(f'"{clean(part)}": {perhaps}one can look by {known}; a word with a colon stands in quotes')
    if value := part[len(name) + 1 :]:
        return value, at + 1
    if words[at].last or at + 1 == len(words) or words[at + 1].names in _NAMES or _figure_at(words, at + 1):
        raise SearchError(f'"{name}:": nothing stands behind it; write {_EXAMPLES[name]}')
    return words[at + 1].text, at + 2


_EXAMPLES: Final = {
    "plan": '"plan: drawknife"',
    "title": '"title: drawknife"',
    "steel": '"steel: 1084"',
    "note": '"note: opened", or in quotes: note: "cold shut"',
    "mark": '"mark: gift"',
    "outcome": '"outcome: flawed"',
    "since": '"since: 2026-03"',
    "until": '"until: 2026-03-31"',
    "on": '"on: 2026-03-14"',
    "is": '"is: unfinished"',
}


def _about(name: str, value: str, part: str) -> Condition:
    if (text := TEXTS.get(name)) is not None:
        return lambda summary, units: _has(text(summary, units), value)
    if name in _DAYS:
        first, behind = _days(value, part)
        first, behind = (date.min if name == "until" else first, date.max if name == "since" else behind)
        return lambda summary, _: first <= summary.started.date() < behind
    if (state := _STATES.get(value.casefold())) is None:
        known = ", ".join((*_STATES, _ARCHIVED))
        raise SearchError(f'"{clean(part)}": a sitting is one of {known}')
    return lambda summary, _: summary.state is state


def _days(text: str, part: str) -> tuple[date, date]:
    """The first day of a year, a month or a day, and the one behind its last."""
    try:
        found = re.fullmatch(r"(\d{4})(?:-(\d{1,2})(?:-(\d{1,2}))?)?", text, re.ASCII)
        if found is None:
            raise ValueError
        year, month, day = (None if number is None else int(number) for number in found.groups())
        first = date(year or 0, 1 if month is None else month, 1 if day is None else day)
        if day is not None:
            return first, first + timedelta(days=1)
        if month is not None:
            return first, (first + timedelta(days=31)).replace(day=1)
        return first, date(first.year + 1, 1, 1)
    except (ValueError, OverflowError):
        raise SearchError(
            f'"{clean(part)}": that is no date; write a day "2026-03-14", a month "2026-03" or a year "2026"'
        ) from None


# Figures


_LONGEST: Final = max(len(name.split()) for name in FIGURES)
"""Words of the name of a figure at most."""
_MOST: Final = 6
"""Words of a quantity at most, as "1 h 30 min 20 s"."""


def _figure_at(words: list[Word], at: int) -> str | None:
    """The name of the figure that begins here, with a sign behind it; None where none does.

    Raises:
        SearchError: a sign stands here without a figure before it.
    """
    if (name := _named_at(words, at)) and (sign := at + len(name.split())) < len(words) and words[sign].is_sign:
        return name
    here = words[at]
    if here.is_sign or (at + 1 < len(words) and words[at + 1].is_sign):
        known = ", ".join(FIGURES)
        near = None if here.is_sign else _near(here.text.casefold(), [*FIGURES, *(n.split()[-1] for n in FIGURES)])
        whole = next((name for name in FIGURES if near in (name, name.split()[-1])), None)
        what = "no figure stands before it" if here.is_sign else "that is no figure"
        perhaps = f', perhaps "{whole}"' if whole else ""
        raise SearchError(f'"{clean(here.text)}": {what}{perhaps}; figures are {known}')
    return None


def _named_at(words: list[Word], at: int) -> str:
    """The longest name of a figure that begins here; empty where none does."""
    names = (" ".join(word.text for word in words[at : at + count]).casefold() for count in range(_LONGEST, 0, -1))
    return next((name for name in names if name in FIGURES), "")


def _held_against(name: str, words: list[Word], at: int) -> tuple[Condition, int]:
    """The condition that begins with a figure's name, and where it goes on."""
    sign_at = at + len(name.split())
    sign, figure = words[sign_at].text, FIGURES[name]
    value = words[sign_at + 1 : sign_at + 1 + _MOST]
    ends = [number for number, word in enumerate(value) if word.last]
    value = value[: ends[0] + 1] if ends else value
    wrong: QuantityError | None = None
    for count in range(len(value), 0, -1):
        for kind in filter(None, (figure, figure.otherwise)):
            try:
                worth = parse(" ".join(word.text for word in value[:count]), kind.dimension)
            except QuantityError as error:
                # The shortest that is more than a number says best what is wrong.
                wrong = error if kind is figure and (count > 1 or wrong is None) else wrong
                continue
            return _compared(kind.of, SIGNS[sign], worth), sign_at + 1 + count
    also = "" if figure.otherwise is None else f"; or {figure.otherwise.example}"
    if wrong is None:
        raise SearchError(f'"{name} {sign}": nothing stands behind it; write {figure.example}{also}')
    why = wrong.why.replace(EXAMPLES[figure.dimension], figure.example)
    raise SearchError(f'"{name} {sign} {clean(wrong.text)}": {why}{also}')


def _compared(of: Callable[[Summary], float | None], meets: Callable[[float, float], bool], worth: float) -> Condition:
    def condition(summary: Summary, _: Units) -> bool:
        value = of(summary)
        return value is not None and meets(value, worth)

    return condition


def _near(word: str, known: Iterable[str]) -> str | None:
    from difflib import get_close_matches  # only an error needs it

    return next(iter(get_close_matches(word, list(known), n=1, cutoff=0.6)), None)
