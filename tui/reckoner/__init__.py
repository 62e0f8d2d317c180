"""What is asked of the reckoner, in words and figures as people type them; one list for command line and screen."""

from typing import TYPE_CHECKING

from plans.front import hand_on

if TYPE_CHECKING:
    from tui.reckoner.question import Field as Field, Question as Question
    from tui.reckoner.questions import GROUPS as GROUPS, QUESTIONS as QUESTIONS
    from tui.reckoner.screen import open_reckoner as open_reckoner
else:
    __getattr__ = hand_on(__name__)
