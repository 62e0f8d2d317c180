"""What is said of a sitting when it is over: lessons, outcome, label, photographs, what was measured since."""

from typing import TYPE_CHECKING

from plans.front import hand_on

if TYPE_CHECKING:
    from plans.logbook.afterwards.label import Label as Label
    from plans.logbook.afterwards.lessons import (
        LONGEST_LESSON as LONGEST_LESSON,
        Lesson as Lesson,
        Recalled as Recalled,
        SittingLessons as SittingLessons,
        Tie as Tie,
        lesson_id as lesson_id,
        lesson_record as lesson_record,
        lessons_from_record as lessons_from_record,
        lessons_record as lessons_record,
        ties_of as ties_of,
    )
    from plans.logbook.afterwards.measured_later import (
        LaterMeasurements as LaterMeasurements,
        MeasuredLater as MeasuredLater,
        as_measurement as as_measurement,
        given_to_log as given_to_log,
        later_record as later_record,
        measured_later_from_record as measured_later_from_record,
        not_in_log as not_in_log,
        with_later as with_later,
    )
    from plans.logbook.afterwards.numbered import as_before as as_before, standing as standing
    from plans.logbook.afterwards.outcome import (
        BEST as BEST,
        Flaw as Flaw,
        Grain as Grain,
        Outcome as Outcome,
        WeldOutcome as WeldOutcome,
        in_a_word as in_a_word,
        outcome_from_record as outcome_from_record,
        outcome_record as outcome_record,
    )
    from plans.logbook.afterwards.outcome_said import (
        SOUND as SOUND,
        UNKNOWN as UNKNOWN,
        welds_of as welds_of,
        with_said as with_said,
        with_weld_said as with_weld_said,
    )
    from plans.logbook.afterwards.photographs import (
        LARGEST_PHOTO as LARGEST_PHOTO,
        LONGEST_NOTE as LONGEST_NOTE,
        Photograph as Photograph,
        Photographs as Photographs,
        copy_name as copy_name,
        is_copy_name as is_copy_name,
        photographs_from_record as photographs_from_record,
        photographs_record as photographs_record,
    )
    from plans.logbook.afterwards.said_at import at_step as at_step, stands_in as stands_in, steps_of as steps_of
else:
    __getattr__ = hand_on(__name__)
