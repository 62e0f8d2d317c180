"""One screen a file."""

from typing import TYPE_CHECKING

from plans.front import hand_on

if TYPE_CHECKING:
    from tui.screens.ask_to_go_on import or_go_on as or_go_on
    from tui.screens.first_start import ask_first as ask_first
    from tui.screens.foot_keys import keys_at_foot as keys_at_foot
    from tui.screens.heats_to_plan import keep_heats as keep_heats
    from tui.screens.help import HelpScreen as HelpScreen
    from tui.screens.host import Host as Host, host_of as host_of, logbook_of as logbook_of, says_next as says_next
    from tui.screens.learn_pedal import ask_for_pedal as ask_for_pedal
    from tui.screens.lesson_to_plan import Put as Put, put_lesson as put_lesson, take_lesson_back as take_lesson_back
    from tui.screens.line import LineScreen as LineScreen
    from tui.screens.listing import gap as gap, heading as heading, row as row, title as title, when as when
    from tui.screens.log import open_log as open_log
    from tui.screens.measured import measured_line as measured_line
    from tui.screens.opening import OpeningScreen as OpeningScreen
    from tui.screens.palette import ActionsProvider as ActionsProvider, Palette as Palette
    from tui.screens.question import Choice as Choice, QuestionScreen as QuestionScreen
    from tui.screens.rehearsal import RehearsalScreen as RehearsalScreen
    from tui.screens.searching import SearchingScreen as SearchingScreen
    from tui.screens.sheet import ReadingSheet as ReadingSheet, Sheet as Sheet
    from tui.screens.standing_by import StandingBy as StandingBy
    from tui.screens.told import TellingScreen as TellingScreen, Told as Told
else:
    __getattr__ = hand_on(__name__)
