"""The question on leaving a sitting that runs."""

from __future__ import annotations

from plans.sitting import Word
from tui.screens import Choice, Host, QuestionScreen


def ask_to_leave(app: Host) -> None:
    """Ask whether to leave, finish or stay, and do it."""

    async def answered(answer: str | None) -> None:
        if answer == "leave":
            await app.leave_sitting()
        elif answer == "finish":
            app.say(Word.FINISH)

    rehearsal = app.running is not None and app.running.logged.journal.header.rehearsal
    later = "leave this rehearsal" if rehearsal else "leave it, to be gone on with later"
    app.push_screen(
        QuestionScreen(
            "The sitting is still running.",
            [
                Choice("stay", "s", "stay"),
                Choice("leave", "l", later),
                Choice("finish", "f", "finish it here"),
            ],
        ),
        answered,
    )
