"""What is said of a sitting that was kept, line by line: the same on the command line, the screen and the page."""

from typing import TYPE_CHECKING

from plans.front import hand_on

if TYPE_CHECKING:
    from plans.logbook.lines.calls import about as about, call_text as call_text
    from plans.logbook.lines.cooling import (
        COOLING_HEADING as COOLING_HEADING,
        factor_lines as factor_lines,
        factor_text as factor_text,
        forecast_stays as forecast_stays,
        forecast_text as forecast_text,
        named_factors as named_factors,
        shown_spread as shown_spread,
        stay_lines as stay_lines,
    )
    from plans.logbook.lines.cost import COST_HEADING as COST_HEADING, cost_lines as cost_lines
    from plans.logbook.lines.heat_table import (
        Column as Column,
        What as What,
        not_done as not_done,
        short_time as short_time,
        used_columns as used_columns,
        value_text as value_text,
    )
    from plans.logbook.lines.lessons import (
        LESSONS_HEADING as LESSONS_HEADING,
        NOT_SAID as NOT_SAID,
        OUTCOME_HEADING as OUTCOME_HEADING,
        lesson_line as lesson_line,
        lessons_gone_with as lessons_gone_with,
        outcome_lines as outcome_lines,
        outcome_parts as outcome_parts,
        recalled_line as recalled_line,
        said_line as said_line,
        weld_line as weld_line,
    )
    from plans.logbook.lines.measured import (
        MEASURED_HEADING as MEASURED_HEADING,
        MeasuredLine as MeasuredLine,
        hardly_so as hardly_so,
        measured_by as measured_by,
        measured_in_short as measured_in_short,
        measured_lines as measured_lines,
        measured_place as measured_place,
    )
    from plans.logbook.lines.photographs import (
        PHOTOGRAPHS_HEADING as PHOTOGRAPHS_HEADING,
        PhotographLine as PhotographLine,
        photograph_lines as photograph_lines,
        photograph_place as photograph_place,
    )
    from plans.logbook.lines.ticks import (
        CHECKLISTS_HEADING as CHECKLISTS_HEADING,
        checklist_lines as checklist_lines,
        tick_line as tick_line,
        ticked_count as ticked_count,
    )
else:
    __getattr__ = hand_on(__name__)
