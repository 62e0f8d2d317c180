"""Which answers apply to what shall be made, and to how it is built: whoever asks for the others asks too much."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import Final, NamedTuple

from plans.maker.settled import EDGED, steels_in
from plans.making import ALL_PATTERN, CORED, OPTIONAL, Build, CoreKind, Part, What, is_twisted
from plans.reader import AnswerKeys


class Group(NamedTuple):
    """Answers that belong together."""

    name: str
    """What they are about, in a word."""
    answers: tuple[str, ...]
    """The attributes of `plans.reader.AnswerKeys`, in the order in which they are asked for."""


_Applies = Callable[[AnswerKeys], bool]


def _for(*whats: What) -> _Applies:
    return lambda answers: answers.what in whats


def _built(*builds: Build) -> _Applies:
    return lambda answers: answers.build in builds


def _with(part: Part) -> _Applies:
    return lambda answers: part in parts_of(answers) and part not in answers.leave_out


def _both(*rules: _Applies) -> _Applies:
    return lambda answers: all(rule(answers) for rule in rules)


def _always(_: AnswerKeys) -> bool:
    return True


def _core(*kinds: CoreKind) -> _Applies:
    """A core of one of these kinds, layered unless it is said."""
    return lambda answers: answers.build in CORED and (answers.core or CoreKind.LAYERED) in kinds


def _layered(answers: AnswerKeys) -> bool:
    """Whether something in it is stacked of several pieces."""
    return answers.build in (Build.FOLDED, Build.TWISTED) or _core(CoreKind.LAYERED, CoreKind.TWISTED)(answers)


def _twisted(answers: AnswerKeys) -> bool:
    return is_twisted(answers.build, answers.core)


def _hardened(answers: AnswerKeys) -> bool:
    """Whether it is quenched, and something in its edge hardens by that."""
    is_quenched = answers.what is not What.BAR and Part.HARDEN not in answers.leave_out
    return is_quenched and steels_in(answers).hard is not None


def _etched(answers: AnswerKeys) -> bool:
    """Whether its steels are to show: there are two or more, and they lie in a pattern or a line along the bevel."""
    of_one_piece = answers.what is What.BAR or answers.build in (Build.ONE_STEEL, Build.LAID_EDGE)
    return not of_one_piece and steels_in(answers).welded


_NEW: Final = _for(*(what for what in What if what is not What.CYCLES))
"""Something new is forged."""
_TANGED: Final = _with(Part.TANG)

_ASKED: Final[Mapping[str, Mapping[str, _Applies]]] = {
    "What": {
        "what": _always,
        "title": _always,
        "length": _always,
        "width": _always,
        "thickness": _always,
        "edge": _for(*EDGED, What.WEDGE, What.CYCLES),
        "point": _for(*(EDGED - {What.DRAWKNIFE})),
        "tang_length": _TANGED,
        "tang": _TANGED,
    },
    "Built": {
        "build": _always,
        "steel": lambda answers: answers.build not in ALL_PATTERN,
        "back": _built(Build.LAID_EDGE, Build.LAMINATE),
        "pattern": _built(*ALL_PATTERN, *CORED),
        "core": _built(*CORED),
        "cores": _both(_NEW, _built(Build.TWISTED, *CORED)),
        "pieces": _both(_NEW, _layered),
        "folds": _both(_NEW, _built(Build.FOLDED)),
        "twist": _both(_NEW, _twisted),
        "core_share": _both(_NEW, _core(CoreKind.PLAIN, CoreKind.LAYERED)),
        "loss": _both(_NEW, _built(Build.BUNDLE)),
    },
    "Bars": {
        "bar": _both(_NEW, lambda answers: answers.build not in (Build.FOLDED, Build.BUNDLE)),
        "other_bar": _both(
            _NEW,
            lambda answers: answers.build in (Build.LAID_EDGE, Build.LAMINATE, Build.BUNDLE) or _layered(answers),
        ),
        "struck_by": _NEW,
        "reduction": _NEW,
        "scale": _NEW,
    },
    "Steps": {
        "leave_out": _always,
        "temper": _with(Part.TEMPER),
        "hardness": lambda answers: answers.temper is None and _with(Part.TEMPER)(answers),
        "dips": _with(Part.ETCH),
        "dip": _with(Part.ETCH),
    },
}
"""When each answer is asked for, by the group that it belongs to."""

_PARTS: Final[Mapping[Part, _Applies]] = {
    Part.PROOF: _both(_NEW, _built(Build.TWISTED, *CORED)),
    Part.TAPER: _for(*(EDGED - {What.DRAWKNIFE})),
    Part.TANG: _for(*EDGED),
    Part.POINT: _for(*(EDGED - {What.DRAWKNIFE})),
    Part.BEVELS: _for(*EDGED),
    Part.STRAIGHTEN: _for(*EDGED),
    Part.PROFILE: _for(*EDGED),
    Part.HARDEN: lambda answers: answers.what is not What.BAR,
    Part.TEMPER: _hardened,
    Part.GRIND: _NEW,
    Part.FINISH: _for(*EDGED),
    Part.ETCH: _etched,
}
"""When a piece may need a part of the work that can be left out; those that are not here it always may."""


def applies(answers: AnswerKeys) -> tuple[Group, ...]:
    """The answers that count for what shall be made, in groups; groups in which none does are left out.

    Args:
        answers: what was answered so far
    """
    groups = (
        Group(name, tuple(answer for answer, rule in rules.items() if rule(answers))) for name, rules in _ASKED.items()
    )
    return tuple(group for group in groups if group.answers)


def parts_of(answers: AnswerKeys) -> tuple[Part, ...]:
    """The parts of the work that a piece may need and that can be left out of its plan, in order.

    Args:
        answers: what was answered so far
    """
    return tuple(_wanted(answers))


def _wanted(answers: AnswerKeys) -> Iterator[Part]:
    return (part for part in OPTIONAL if part not in _PARTS or _PARTS[part](answers))
