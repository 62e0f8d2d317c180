"""What was done: storage, journal, recovery and the figures of a sitting."""

from typing import TYPE_CHECKING

from plans.front import hand_on

if TYPE_CHECKING:
    from plans.logbook.afterwards import (
        BEST as BEST,
        LONGEST_LESSON as LONGEST_LESSON,
        LONGEST_NOTE as LONGEST_NOTE,
        SOUND as SOUND,
        UNKNOWN as UNKNOWN,
        Flaw as Flaw,
        Grain as Grain,
        Label as Label,
        LaterMeasurements as LaterMeasurements,
        Lesson as Lesson,
        MeasuredLater as MeasuredLater,
        Outcome as Outcome,
        Photograph as Photograph,
        Photographs as Photographs,
        Recalled as Recalled,
        SittingLessons as SittingLessons,
        Tie as Tie,
        at_step as at_step,
        later_record as later_record,
        lesson_id as lesson_id,
        lesson_record as lesson_record,
        outcome_record as outcome_record,
        photographs_record as photographs_record,
        stands_in as stands_in,
        steps_of as steps_of,
        ties_of as ties_of,
        welds_of as welds_of,
        with_later as with_later,
        with_said as with_said,
        with_weld_said as with_weld_said,
    )
    from plans.logbook.archive import Packed as Packed, Unpacked as Unpacked, is_plan_file as is_plan_file
    from plans.logbook.book import Logbook as Logbook
    from plans.logbook.errors import LogbookError as LogbookError, StoppedError as StoppedError, shown as shown
    from plans.logbook.figures import (
        LEAST_TOO_COLD as LEAST_TOO_COLD,
        Finding as Finding,
        HeatFigures as HeatFigures,
        Learned as Learned,
        heat_figures as heat_figures,
        heats_done as heats_done,
        learned_record as learned_record,
    )
    from plans.logbook.going_on import went_on_lines as went_on_lines
    from plans.logbook.header import Header as Header
    from plans.logbook.kept_plan import plan_if_known as plan_if_known
    from plans.logbook.kept_sitting import KeptSitting as KeptSitting, WorkedOut as WorkedOut, WorkOut as WorkOut
    from plans.logbook.log import Log as Log
    from plans.logbook.logged_sitting import MOMENT as MOMENT, LoggedSitting as LoggedSitting, work_out as work_out
    from plans.logbook.measuring_later import measured_at as measured_at, measured_taken_back as measured_taken_back
    from plans.logbook.photo_files import read_picture as read_picture
    from plans.logbook.photographing import photograph_taken_back as photograph_taken_back
    from plans.logbook.reviewing import (
        BESIDE_HEADING as BESIDE_HEADING,
        STANDS_OUT_HEADING as STANDS_OUT_HEADING,
        TOTALS_HEADING as TOTALS_HEADING,
        LookingBack as LookingBack,
        Timeline as Timeline,
        outline as outline,
    )
    from plans.logbook.said_before import as_said_before as as_said_before
    from plans.logbook.search import Search as Search, SearchError as SearchError, read_search as read_search
    from plans.logbook.summary import Progress as Progress, Summary as Summary, newest_first as newest_first
    from plans.logbook.taken_back import calls_taken_back as calls_taken_back
else:
    __getattr__ = hand_on(__name__)
