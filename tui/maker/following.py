"""A plan that was changed by hand is brought after its answers: what would change is shown first, and asked about."""

from __future__ import annotations

from collections.abc import Callable

from plans.errors import PlanError
from tui.maker.sheets import RemadeScreen, told_of
from tui.maker.work import Work
from tui.screens import TellingScreen


def ask_to_make_anew(screen: TellingScreen, work: Work, answered: Callable[[bool], object]) -> None:
    """Show where the plan's file is not what its answers give: whoever changed answers there sees it no sooner.

    Args:
        screen: asks
        work: the plan, which is made anew where that is wanted
        answered: called with whether it was made anew
    """

    def taken(take: bool | None) -> None:
        if take:
            work.make_anew()
        answered(bool(take))

    differs = {"What its answers give today, in place of what stands in it": work.differs}
    asked = "The plan is not what its answers give: make it anew?"
    screen.app.push_screen(RemadeScreen(differs, work.known.units, asked), taken)


def follows(screen: TellingScreen, work: Work, then: Callable[[bool], object]) -> bool:
    """Bring the plan after its answers, where they have changed; a plan that can't follow them is left as it is.

    Args:
        screen: asks, and tells why it can't follow
        work: the plan
        then: called once something was asked and has been answered, with whether the plan follows

    Returns:
        whether there was nothing to be asked
    """
    try:
        remade = work.remade()
    except PlanError as error:
        screen.tell(f"the plan can't follow its answers: {error}", wrong=True)
        return True
    if remade is None:
        return True

    def answered(take: bool | None) -> None:
        if take:
            work.take_remade(remade)
        else:
            screen.tell("the plan is as it was, for the answers as they were", wrong=False)
        screen.call_later(then, bool(take))

    screen.app.push_screen(RemadeScreen(told_of(remade), work.known.units), answered)
    return False
