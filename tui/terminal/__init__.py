"""The terminal that the screen is on: one that goes, falls silent or sends rubbish does no harm to what runs."""

from typing import TYPE_CHECKING

from plans.front import hand_on

if TYPE_CHECKING:
    from tui.terminal.driver import TerminalDriver as TerminalDriver
    from tui.terminal.gone import TerminalGone as TerminalGone
    from tui.terminal.signals import end_within as end_within, interrupt as interrupt, told_to_end as told_to_end
else:
    __getattr__ = hand_on(__name__)
