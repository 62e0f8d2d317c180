"""What was done: storage, journal, recovery and the figures of a sitting."""

from typing import TYPE_CHECKING

from plans.front import hand_on

if TYPE_CHECKING:
    from plans.logbook.archive import is_plan_file as is_plan_file
    from plans.logbook.book import Logbook as Logbook
    from plans.logbook.errors import LogbookError as LogbookError, StoppedError as StoppedError, shown as shown
    from plans.logbook.figures import LEAST_TOO_COLD as LEAST_TOO_COLD, HeatFigures as HeatFigures, Learned as Learned
    from plans.logbook.finding import Finding as Finding
    from plans.logbook.going_on import went_on_lines as went_on_lines
    from plans.logbook.header import Header as Header
    from plans.logbook.heats import heat_figures as heat_figures, heats_done as heats_done
    from plans.logbook.kept_plan import plan_if_known as plan_if_known
    from plans.logbook.kept_sitting import KeptSitting as KeptSitting, WorkedOut as WorkedOut, WorkOut as WorkOut
    from plans.logbook.label import Label as Label
    from plans.logbook.learned_json import learned_record as learned_record
    from plans.logbook.lessons import (
        LONGEST_LESSON as LONGEST_LESSON,
        Lesson as Lesson,
        Recalled as Recalled,
        SittingLessons as SittingLessons,
        Tie as Tie,
        lesson_id as lesson_id,
        lesson_record as lesson_record,
        ties_of as ties_of,
    )
    from plans.logbook.log import Log as Log
    from plans.logbook.logged_sitting import MOMENT as MOMENT, LoggedSitting as LoggedSitting, work_out as work_out
    from plans.logbook.looking_back import (
        BESIDE_HEADING as BESIDE_HEADING,
        STANDS_OUT_HEADING as STANDS_OUT_HEADING,
        TOTALS_HEADING as TOTALS_HEADING,
        LookingBack as LookingBack,
        outline as outline,
    )
    from plans.logbook.measured_later import (
        LaterMeasurements as LaterMeasurements,
        MeasuredLater as MeasuredLater,
        later_record as later_record,
        with_later as with_later,
    )
    from plans.logbook.measuring_later import (
        measured_at as measured_at,
        measured_taken_back as measured_taken_back,
    )
    from plans.logbook.outcome import (
        BEST as BEST,
        Flaw as Flaw,
        Grain as Grain,
        Outcome as Outcome,
        outcome_record as outcome_record,
    )
    from plans.logbook.outcome_said import (
        SOUND as SOUND,
        UNKNOWN as UNKNOWN,
        welds_of as welds_of,
        with_said as with_said,
        with_weld_said as with_weld_said,
    )
    from plans.logbook.packing import Packed as Packed
    from plans.logbook.photo_files import read_picture as read_picture
    from plans.logbook.photographing import photograph_taken_back as photograph_taken_back
    from plans.logbook.photographs import (
        LONGEST_NOTE as LONGEST_NOTE,
        Photograph as Photograph,
        Photographs as Photographs,
        photographs_record as photographs_record,
    )
    from plans.logbook.said_at import at_step as at_step, stands_in as stands_in, steps_of as steps_of
    from plans.logbook.said_before import as_said_before as as_said_before
    from plans.logbook.search import Search as Search, SearchError as SearchError, read_search as read_search
    from plans.logbook.summary import Progress as Progress, Summary as Summary, newest_first as newest_first
    from plans.logbook.taken_back import calls_taken_back as calls_taken_back
    from plans.logbook.taking_in import Unpacked as Unpacked
    from plans.logbook.timeline import Timeline as Timeline
else:
    __getattr__ = hand_on(__name__)
