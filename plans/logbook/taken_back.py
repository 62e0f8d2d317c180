"""Which calls came of a word that was taken back: they were called out, and what they told of never was."""

from __future__ import annotations

from collections.abc import Iterable

from plans.sitting import STATES, Event, Said, State, Word, fold


def calls_taken_back(events: Iterable[Event]) -> frozenset[int]:
    """The calls that were made between a word and its undo, by their place in the state's `calls`.

    What the probe said of itself stands, whatever was taken back, and so does a call after a word that changed nothing
    about the work. A word that was said again by `redo` brings its calls back.
    """
    state = State()
    made: list[int] = []
    """How many calls there were at each of the state's undo points."""
    undone: list[tuple[int, set[int]]] = []
    """What the undos took back that a redo can bring again."""
    back: set[int] = set()
    for event in events:
        before = len(state.calls)
        point = fold(state, event)
        word = event.word if isinstance(event, Said) else None
        if word is Word.UNDO and point is not None:
            since = made.pop()
            calls = range(since, len(state.calls)) if point.moved else ()
            undone.append((since, {index for index in calls if state.calls[index].call not in STATES} - back))
            back |= undone[-1][1]
        elif word is Word.REDO and point is not None:
            since, calls_again = undone.pop()
            made.append(since)
            back -= calls_again
        elif len(state.undo_points) > len(made):
            made.append(before)
            undone.clear()
        else:
            # A long break ends what can be taken back.
            del made[len(state.undo_points) :]
    return frozenset(back)
