"""The parts that screens are built from."""

from typing import TYPE_CHECKING

from plans.front import hand_on

if TYPE_CHECKING:
    from tui.widgets.axes import Axis as Axis, length as length, temperature as temperature
    from tui.widgets.big_line import BigLine as BigLine, letters as letters
    from tui.widgets.cached_drawing import CachedDrawing as CachedDrawing, Shown as Shown
    from tui.widgets.chalk import ChalkTally as ChalkTally
    from tui.widgets.choices import Choices as Choices
    from tui.widgets.curves import (
        CLEAR as CLEAR,
        above as above,
        flags as flags,
        floor_of as floor_of,
        lines_of as lines_of,
        measured_curve as measured_curve,
        modelled_curve as modelled_curve,
        shades as shades,
    )
    from tui.widgets.fields import Field as Field, Fields as Fields
    from tui.widgets.figure import drawn_figure as drawn_figure, drawn_word as drawn_word
    from tui.widgets.glow_map import GlowData as GlowData, GlowMap as GlowMap
    from tui.widgets.grounds import Ground as Ground
    from tui.widgets.hero import Hero as Hero, Lettering as Lettering
    from tui.widgets.lines import Key as Key, KeyLine as KeyLine, SplitLine as SplitLine
    from tui.widgets.marks import (
        FINISHED as FINISHED,
        PAUSED as PAUSED,
        Mark as Mark,
        MarkRow as MarkRow,
        call_mark as call_mark,
        phase_mark as phase_mark,
    )
    from tui.widgets.plain import clip as clip, fill as fill
    from tui.widgets.plotting import Curve as Curve
    from tui.widgets.question_row import QuestionRow as QuestionRow
    from tui.widgets.scale import ScaleData as ScaleData, UprightScale as UprightScale
    from tui.widgets.search_line import SearchLine as SearchLine
    from tui.widgets.steps import StepLine as StepLine, StepList as StepList, step_lines as step_lines
    from tui.widgets.still import (
        Still as Still,
        StillColumn as StillColumn,
        StillRow as StillRow,
        StillText as StillText,
    )
    from tui.widgets.tally import tally_text as tally_text
    from tui.widgets.to_scale import (
        ScaleDrawing as ScaleDrawing,
        ScaleView as ScaleView,
        drawn_to_scale as drawn_to_scale,
    )
    from tui.widgets.trace import TraceView as TraceView
    from tui.widgets.trace_layout import Series as Series, TraceData as TraceData
else:
    __getattr__ = hand_on(__name__)
