"""What was done: storage, journal, recovery and the figures of a sitting."""

from typing import TYPE_CHECKING

from plans.front import hand_on

if TYPE_CHECKING:
    from plans.logbook.book import Logbook as Logbook
    from plans.logbook.errors import LogbookError as LogbookError, StoppedError as StoppedError, shown as shown
    from plans.logbook.figures import LEAST_TOO_COLD as LEAST_TOO_COLD, HeatFigures as HeatFigures, Learned as Learned
    from plans.logbook.finding import Finding as Finding
    from plans.logbook.going_on import went_on_lines as went_on_lines
    from plans.logbook.header import Header as Header
    from plans.logbook.heats import heat_figures as heat_figures, heats_done as heats_done
    from plans.logbook.kept_plan import plan_if_known as plan_if_known
    from plans.logbook.kept_sitting import KeptSitting as KeptSitting, WorkedOut as WorkedOut, WorkOut as WorkOut
    from plans.logbook.learned_json import learned_record as learned_record
    from plans.logbook.log import Log as Log
    from plans.logbook.logged_sitting import MOMENT as MOMENT, LoggedSitting as LoggedSitting, work_out as work_out
    from plans.logbook.looking_back import (
        BESIDE_HEADING as BESIDE_HEADING,
        STANDS_OUT_HEADING as STANDS_OUT_HEADING,
        TOTALS_HEADING as TOTALS_HEADING,
        LookingBack as LookingBack,
        outline as outline,
    )
    from plans.logbook.summary import Progress as Progress, Summary as Summary
    from plans.logbook.taken_back import calls_taken_back as calls_taken_back
    from plans.logbook.timeline import Timeline as Timeline
else:
    __getattr__ = hand_on(__name__)
