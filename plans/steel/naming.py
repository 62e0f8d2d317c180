"""Finding a grade by its name, and what to suggest for a name that isn't known.

A number that looks like another one may be quite another steel, so a suggestion is never made for looks alone: either
somebody is known to call the two alike, or the number itself says that the carbon is nearly the same, or what was typed
is a plain slip of the pen within one system of names. What is suggested is shown with what is in it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from typing import Final

from plans.steel.errors import SteelError
from plans.steel.grades import Grade, all_grades
from plans.text import clean

SYSTEMS: Final = re.compile(
    r"^(?:aisi|sae|astm|uns|en|iso|din|jis|werkstoffnummer|werkstoffnr|wnr|mat(?:erial)?(?:no|nr)|grade|steel)+(?=[a-z]*\d)"
)
"""The names of standards and the words that people put before a designation, such as "AISI" or "W.-Nr."."""
LIKE_CARBON: Final = 0.05
"""How far the carbon that a number of AISI/SAE tells may lie from that of a grade that is suggested [mass %]."""
_LONGEST: Final = 40
"""A longer name is no grade's, nor a slip of the pen for one [characters]."""
_LOOK_ALIKE: Final = str.maketrans({"o": "0", "i": "1", "l": "1"})
"""Letters that are typed for digits."""


def find_grade(name: str) -> Grade:
    """The grade of a name, however it is spelt: "1084", "AISI 1084", "c75s", "1.1248", "W.-Nr. 1.1248".

    Raises:
        SteelError: no grade has that name; the text names those that are like it, with what is in them.
    """
    known = _names()
    found = known.get(_plain(name))
    if found is not None:
        return found[1]
    raise SteelError(f'no steel is called "{clean(name.strip(), _LONGEST)}" here: {_hint(name)}')


def same_steel(one: str, other: str) -> bool:
    """Whether two names mean the same steel, be it one that is known under both or one that is spelt the same."""
    if one.casefold() == other.casefold():
        return True
    try:
        return find_grade(one) is find_grade(other)
    except SteelError:
        return False


def near_to(name: str) -> str:
    """What to suggest for a name that no grade has: "it comes close to 1084 (C 0.865 %)", "did you mean 15N20 ...?".

    Returns:
        A part of a sentence, or a whole question; empty where no grade is known to be like it.
    """
    if len(name) > _LONGEST:
        return ""
    plain = _plain(name)
    beside = [(grade.name, grade) for grade in all_grades() if plain and plain in map(_plain, grade.near)]
    beside = beside or list(_of_like_carbon(plain))
    if beside:
        return f"it comes close to {_listed(beside[:2], 'and')}"
    meant = [(own, grade) for key, (own, grade) in _names().items() if _slip(name, plain, own, key)]
    if meant:
        return f"did you mean {_listed(meant[:3], 'or')}?"
    return ""


def _hint(name: str) -> str:
    near = near_to(name)
    if not near:
        return "give its composition, e.g. C 0.75 %, Mn 0.6 %"
    return f"{near} Or give its composition" if near.endswith("?") else f"{near}; or give its composition"


def _listed(named: list[tuple[str, Grade]], last: str) -> str:
    return f" {last} ".join(f"{own} ({_content(grade)})" for own, grade in named)


def _content(grade: Grade) -> str:
    """What makes the grade what it is: its carbon, and what else there is much of [mass %]."""
    least = {"C": 0.0, "Mn": 1.0, "Si": 1.0}
    shares = grade.middle.shares().items()
    return ", ".join(f"{symbol} {share:.3g} %" for symbol, share in shares if share >= least.get(symbol, 0.095))


def _of_like_carbon(plain: str) -> Iterator[tuple[str, Grade]]:
    """Grades of the family of a four-digit number of AISI/SAE that have nearly its carbon, the nearest first."""
    if not re.fullmatch(r"\d{4}", plain) or plain.startswith("12"):
        return  # the figures of 12xx, free-cutting steel, don't tell the carbon
    carbon = int(plain[2:]) / 100
    family = [
        (abs(grade.middle.carbon - carbon), grade)
        for grade in all_grades()
        if re.fullmatch(plain[:2] + r"\d\d", grade.name)
    ]
    for apart, grade in sorted(family, key=lambda one: one[0]):
        if apart <= LIKE_CARBON:
            yield grade.name, grade


_JAPANESE: Final = r"su[pj]\d+|sk[sdh]?\d+|s\d\dc|s(?:cm|ncm|cr)\d+"
_KINDS: Final = tuple(map(re.compile, (r"[\doil]*\d[\doil]*", r"[gtnk]\d{5}", _JAPANESE, r".*\d.*")))
"""Plain names by their looks: numbers of AISI/SAE, of UNS, names of JIS, chemical symbols with figures."""


def _kind(name: str, plain: str) -> int:
    """Which system of names a designation is of, by its looks."""
    if re.search(r"(?:^|\s)1\.[\doil]+\s*$", name, re.IGNORECASE):
        return -1  # a W.-Nr. is told from a number of AISI/SAE by its dot
    return next((number for number, kind in enumerate(_KINDS) if kind.fullmatch(plain)), len(_KINDS))


def _slip(typed: str, plain: str, own: str, key: str) -> bool:
    """Whether a name that was typed is a slip of the pen for a known one, and can't be meant for another steel."""
    if len(plain) < 4 or len(key) < 4 or _kind(typed, plain) != _kind(own, key):
        return False
    typed_digits, known_digits = plain.translate(_LOOK_ALIKE), key.translate(_LOOK_ALIKE)
    if known_digits.isdigit():
        plain, key = typed_digits, known_digits
    return typed_digits == known_digits or _one_apart(plain, key)


def _one_apart(typed: str, known: str) -> bool:
    """Whether two names differ by one slip that no other designation is made by.

    One letter is another, missing, too many, or has changed places with its neighbour. A digit is part of what the
    steel is, and two that changed places make another steel, as 1008 and 1080: it may only be missing or too many where
    it stands twice, or at the end of a name of many letters.
    """
    start = next((i for i, (a, b) in enumerate(zip(typed, known, strict=False)) if a != b), min(len(typed), len(known)))
    a, b = typed[start:], known[start:]
    if len(a) == len(b):
        swapped = a[1::-1] == b[:2] and a[2:] == b[2:] and not a[:2].isdigit()
        return swapped or (a[1:] == b[1:] and a[:1].isalpha() and b[:1].isalpha())
    longer, shorter = (a, b) if len(a) > len(b) else (b, a)
    if longer[1:] != shorter:
        return False
    if longer[0].isalpha():
        return True
    whole = max(typed, known, key=len)
    letters = sum(map(str.isalpha, whole))
    return (start > 0 and whole[start - 1] == longer[0]) or (not shorter and letters >= 4)


def _plain(name: str) -> str:
    """A designation without spaces, dots, dashes and the name of its system."""
    return SYSTEMS.sub("", re.sub(r"[^0-9a-z]", "", name.lower()))


@cache
def _names() -> dict[str, tuple[str, Grade]]:
    """Every name that is known by its plain spelling, with its grade; own names win over another's second name."""
    names: dict[str, tuple[str, Grade]] = {}
    for of in (lambda grade: (grade.name,), lambda grade: grade.also):
        for grade in all_grades():
            for name in of(grade):
                names.setdefault(_plain(name), (name, grade))
    return names
