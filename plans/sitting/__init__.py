"""The running of a plan: events, the engine, calls and cautions."""

from typing import TYPE_CHECKING

from plans.front import hand_on

if TYPE_CHECKING:
    from plans.sitting.as_done import heats_as_done as heats_as_done
    from plans.sitting.as_measured import (
        measured_after as measured_after,
        measured_at_ends as measured_at_ends,
        plan_as_measured as plan_as_measured,
        sections_measured as sections_measured,
        with_those_before as with_those_before,
    )
    from plans.sitting.believed import Believed as Believed
    from plans.sitting.call_row import Shape as Shape
    from plans.sitting.calls import (
        ALARMS as ALARMS,
        PASSING as PASSING,
        PROMPTS as PROMPTS,
        STATES as STATES,
        Call as Call,
    )
    from plans.sitting.cautions import first_of_all as first_of_all, for_plan as for_plan, for_step as for_step
    from plans.sitting.due import leeway as leeway
    from plans.sitting.effects import check_come_to as check_come_to
    from plans.sitting.engine import Sitting as Sitting
    from plans.sitting.event_record import event_from_record as event_from_record, event_to_record as event_to_record
    from plans.sitting.events import (
        Asked as Asked,
        Basis as Basis,
        Begun as Begun,
        Called as Called,
        Cause as Cause,
        Doubt as Doubt,
        Eased as Eased,
        Ended as Ended,
        Entry as Entry,
        Event as Event,
        LeftFire as LeftFire,
        Said as Said,
        Tick as Tick,
        WentOn as WentOn,
        Word as Word,
    )
    from plans.sitting.folding import fold as fold, folded as folded
    from plans.sitting.glance import TAKE_IT_OUT as TAKE_IT_OUT, Glance as Glance, glance_at as glance_at
    from plans.sitting.hands import Hands as Hands, HandsFree as HandsFree
    from plans.sitting.limits import (
        Limit as Limit,
        LimitName as LimitName,
        heat_ceiling as heat_ceiling,
        limits_of as limits_of,
    )
    from plans.sitting.main_figure import MainFigure as MainFigure, MainFigureKind as MainFigureKind
    from plans.sitting.measured_where import (
        is_at_bench as is_at_bench,
        is_struck as is_struck,
        measured_of as measured_of,
    )
    from plans.sitting.pace import fastest_change as fastest_change
    from plans.sitting.phase_span import (
        PhaseSpan as PhaseSpan,
        length as length,
        phase_spans as phase_spans,
        shaded_spans as shaded_spans,
        spans_by_model as spans_by_model,
        standstills as standstills,
    )
    from plans.sitting.questions import question as question
    from plans.sitting.repeating import (
        NEVER_SILENT as NEVER_SILENT,
        Repeating as Repeating,
        Unanswered as Unanswered,
        strokes as strokes,
        urgency_of as urgency_of,
    )
    from plans.sitting.saying import Kind as Kind, Saying as Saying, Urgency as Urgency, Volume as Volume
    from plans.sitting.senses import MEDIAN_OF as MEDIAN_OF, Patience as Patience
    from plans.sitting.skin import Skin as Skin
    from plans.sitting.state import ECHO as ECHO, Note as Note, State as State
    from plans.sitting.taking_back import last_word as last_word, taken_back as taken_back
    from plans.sitting.ticks import (
        ItemTick as ItemTick,
        Ticked as Ticked,
        read_tick as read_tick,
        written_tick as written_tick,
    )
    from plans.sitting.undo import Measurement as Measurement
    from plans.sitting.warm import GRID as GRID, Exposure as Exposure, WorkWarmth as WorkWarmth
    from plans.sitting.words import (
        LONGEST_NOTE as LONGEST_NOTE,
        WordError as WordError,
        measured_text as measured_text,
        note_text as note_text,
        parse_word as parse_word,
    )
else:
    __getattr__ = hand_on(__name__)
