"""Sittings beside one another: figures, traces, trends, and which habits went with flawed welds."""

from typing import TYPE_CHECKING

from plans.front import hand_on

if TYPE_CHECKING:
    from plans.logbook.comparing.figure_rows import Part as Part, Row as Row, side_by_side as side_by_side
    from plans.logbook.comparing.fisher import fisher_exact as fisher_exact
    from plans.logbook.comparing.habits import (
        FEWEST as FEWEST,
        HABITS as HABITS,
        LIMIT as LIMIT,
        SURE as SURE,
        HabitsTold as HabitsTold,
        HabitTold as HabitTold,
        habits_told as habits_told,
    )
    from plans.logbook.comparing.laying_over import (
        Laid as Laid,
        Moment as Moment,
        apart as apart,
        heats_from as heats_from,
        lay_heats as lay_heats,
        lay_over as lay_over,
    )
    from plans.logbook.comparing.occasion import Occasion as Occasion, occasions as occasions, of_kind as of_kind
    from plans.logbook.comparing.said import (
        DIFFERS as DIFFERS,
        LETTERS as LETTERS,
        SINCE as SINCE,
        letters_without as letters_without,
        part_title as part_title,
        row_name as row_name,
        row_texts as row_texts,
        skin_text as skin_text,
        what_differs as what_differs,
    )
    from plans.logbook.comparing.said_trends import (
        MEDIANS as MEDIANS,
        Table as Table,
        habit_table as habit_table,
        habits_heading as habits_heading,
        habits_verdict as habits_verdict,
        trend_table as trend_table,
    )
    from plans.logbook.comparing.trends import (
        Point as Point,
        Span as Span,
        points_of as points_of,
        spans_of as spans_of,
    )
else:
    __getattr__ = hand_on(__name__)
