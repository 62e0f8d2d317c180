"""Leaving: where it leads from a screen, from a sitting, and out of the program.

Nothing here waits until a screen that was taken away has gone. Whoever asks may be that screen itself, as where a key
at its foot was clicked or its question was answered, and it goes only when it has done what it is at: screen and app
would wait for each other for good. The app sees each of them out by itself before it takes the next key.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from tui.running import ReviewRequest, Shelf

if TYPE_CHECKING:
    from tui.app.in_hand import SittingInHand
    from tui.app.shell import Shell


def leave_screen(app: Shell) -> None:
    """Close the screen on top; the last one closes the program."""
    app.pop_screen()
    if len(app.screen_stack) == 1:
        _end(app)


async def leave_sitting(app: Shell) -> None:
    """Put the sitting away and go back to where it was begun."""
    app.close_sitting()
    if app.for_one_sitting:
        _end(app)
        return
    await _back_to_the_shelf(app)
    for text in app.outcome.errors:
        app.say_aside(text, wrong=True)


async def review_finished(app: Shell, name: str, rehearsal: bool) -> None:
    """From the end of a sitting, which has been put away, to the whole of it.

    Args:
        app: where it is shown
        name: the sitting's, in the logbook
        rehearsal: whether it is one, which is kept apart
    """
    await _back_to_the_shelf(app)
    await app.open(ReviewRequest(name, rehearsal))


async def _back_to_the_shelf(app: Shell) -> None:
    """Close all screens; the shelf comes again, but where one sitting was all that was asked for."""
    while len(app.screen_stack) > 1:
        app.pop_screen()
    if not app.for_one_sitting:
        await app.open(Shelf())


def _end(app: Shell) -> None:
    _empty_trash(app)
    app.exit(app.outcome)


def _empty_trash(app: Shell) -> None:
    """Whoever leaves in his own time has no more use for what he deleted; not so where the terminal has gone."""
    if hasattr(app, "logbook"):  # the reckoner alone opens none
        for logbook in (app.logbook, app.rehearsals):
            logbook.empty_trash()


def ask_to_quit(app: Shell, in_hand: SittingInHand) -> None:
    """Leave the program; where a sitting is in hand, or the screen has something that would be lost, ask first."""
    from tui.screens import QuestionScreen

    if (asks := getattr(app.screen, "asks_to_leave", None)) is not None and asks(app.leave):
        return
    if not in_hand.seen:
        _empty_trash(app)
        app.leave()
    elif not isinstance(app.screen, QuestionScreen):
        from tui.live import ask_to_leave

        ask_to_leave(app)
