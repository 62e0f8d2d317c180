"""The live screen: one word, one figure, how urgent; everything else for the second glance."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, ClassVar

from rich.cells import cell_len
from textual import events
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.content import Content
from textual.screen import Screen
from textual.widget import Widget

from plans.logbook.lines import recalled_line, ticked_count
from plans.phase import PhaseKind
from plans.shown import show_clock
from plans.sitting import Begun, Call, Doubt, Event, Glance, Said, Word, heats_as_done, last_word
from plans.text import plain
from tui.actions import BY_ID, Place, bindings, shown_key
from tui.live.arrangement import Arrangement, Wanted, arrange, far
from tui.live.below import Below
from tui.live.foot import keys_of
from tui.live.lessons import for_little_room, lesson_line
from tui.live.minding import shortened
from tui.live.showing import Showing, by_itself, hands_line, probe_line, showing
from tui.live.side import Side
from tui.live.step_text import instruction_text, items_ticked, side_text, step_list
from tui.live.unsaved import warning_rows
from tui.screens import host_of, keys_at_foot
from tui.widgets import (
    BigLine,
    ChalkTally,
    Hero,
    KeyLine,
    Lettering,
    MarkRow,
    SplitLine,
    Still,
    StillColumn,
    StillRow,
    StillText,
    UprightScale,
    tally_text,
)

if TYPE_CHECKING:
    from plans.logbook import Recalled
    from tui.config import Settings
    from tui.running import RunningSitting

_ROOM_FOR_PROBE = 100
_BLINKS_FROM = 2
"""How urgent an unanswered call must have become for its marks to blink."""
_NOTICE = 4.0
"""How long a notice stands [s]."""
_APART = 4
"""Cells round a call and what stands beside it."""
_ROOMY = 4
"""Rows from which a word can spare one."""


def _wanted(phase: PhaseKind) -> Wanted:
    """What the room is wanted for in a phase."""
    return {PhaseKind.BENCH: Wanted.READING, PhaseKind.READY: Wanted.READINESS}.get(phase, Wanted.WORK)


class LiveScreen(Screen[None], Still):
    """A sitting as it runs."""

    PLACE: ClassVar[Place] = Place.SITTING
    BINDINGS: ClassVar[list[BindingType]] = bindings(Place.SITTING)
    DEFAULT_CSS = """
    LiveScreen #main { width: 1fr; height: 1fr; }
    LiveScreen #body { height: 1fr; }
    LiveScreen #head { text-style: bold; background: $surface; }
    LiveScreen #marks, LiveScreen #foot-marks { color: $text-muted; }
    LiveScreen Hero { background: $surface; }
    LiveScreen #reach { text-style: bold; }
    LiveScreen #cue.said { color: $accent; text-style: bold; }
    LiveScreen #scale { padding: 0 0 0 1; }
    LiveScreen #small-word { padding: 0; }
    LiveScreen #label { text-style: bold; }
    LiveScreen #call { color: $text-muted; }
    LiveScreen #call.alarm { color: $error; text-style: bold; }
    LiveScreen #call.notice { color: $foreground; text-style: reverse; }
    LiveScreen #trouble { background: $error; color: $background; }
    LiveScreen #keys { background: $surface; }
    """

    def __init__(self, running: RunningSitting, settings: Settings) -> None:
        super().__init__()
        self.running = running
        self._settings = settings
        self._far = False
        self._notice: tuple[str, float] | None = None
        self._shown: Showing | None = None
        self._hands = ""
        """What may end a phase by itself, where there is room to say it."""
        self._probe_is_lost = False
        self._asked = False
        self._arrangement = Arrangement(small=True)
        self._arranged_for: tuple[Wanted, str | None] = Wanted.WORK, None
        """What the room was wanted for, and what the screen had to warn of."""
        self._told: tuple[object, ...] = ()

    def compose(self) -> ComposeResult:
        blocks = self._settings.blocks
        yield BigLine(id="head", blocks=blocks)
        with StillRow(id="body"):
            with StillColumn(id="main"):
                yield MarkRow(id="marks", blocks=blocks)
                yield SplitLine(id="small-word")
                with StillRow(id="big"):
                    yield Hero(id="hero")
                    yield UprightScale(id="scale")
                yield MarkRow(id="foot-marks", blocks=blocks)
                yield BigLine(id="reach", blocks=blocks)
                yield SplitLine(id="label")
                yield BigLine(id="cue", blocks=blocks)
                yield SplitLine(id="call")
                yield Below(self.running.sitting, self._settings, id="below")
                yield ChalkTally(id="chalk")
            yield Side(id="side", blocks=blocks)
        yield StillText(id="trouble", markup=False)
        yield KeyLine(id="keys")

    def on_mount(self) -> None:
        self.query_one(UprightScale).units = self._settings.units
        # Before the first paint, rather than when the size is told.
        self._arrange(*self.app.size)
        self.redraw(host_of(self).clock())

    def on_resize(self, event: events.Resize) -> None:
        self._arrange(*event.size)
        # What is written to fit knows its room once all is laid out.
        self.call_after_refresh(lambda: self.redraw(host_of(self).clock()))

    # Drawing

    def notice(self, text: str, now: float) -> None:
        """A short line that goes by itself."""
        self._notice = (text, now)
        self.redraw(now)

    def tell_what_began(self, events: Sequence[Event], now: float) -> None:
        """Say it where a phase began without a word, and how to take that back."""
        if any(isinstance(event, Begun | Said) for event in events):
            self._notice = None  # it was about what was before
        key = shown_key(BY_ID["undo"], self._settings.keys)
        for event in events:
            if isinstance(event, Begun) and (text := by_itself(event, key)):
                self.notice(text, now)

    def redraw(self, now: float) -> None:
        """Draw what the sitting is; `now` is real time, for what blinks [s]."""
        if not (self.is_mounted and self.is_attached):  # on its way in or out
            return
        running = self.running
        sitting = running.sitting
        seen = running.seen
        link = running.source.link_state()
        lost = Call.PROBE_LOST in seen.alarms
        narrow = self.app.size.width - self._arrangement.side < _ROOM_FOR_PROBE
        probe = probe_line(sitting.probe_on, link, lost, running.speed, narrow, running.hurries)
        # Without its probe nothing is felt.
        gone = lost or (sitting.probe_on is not None and (link is None or bool(link.trouble)))
        self._probe_is_lost = gone
        self._hands = "" if gone else hands_line(sitting.hands, sitting.probe_on)
        scaled = self._arrangement.scale > 0
        shown = showing(
            sitting,
            seen,
            probe,
            self._settings.units,
            self._settings.heat_names,
            scaled=scaled,
            columns=self.query_one("#label").size.width,
        )
        if self._arranged_for != (_wanted(seen.phase), running.logged.trouble):
            self._arrange(*self.app.size)
        self._draw(shown, now)
        self._draw_below(seen, sitting.now)
        self._follow(seen)

    def _draw(self, shown: Showing, now: float) -> None:
        self._shown = shown
        self._draw_large(shown, int(now * 2) % 2 == 0)
        self._draw_lines(shown)
        self._draw_call(shown, now)
        only = keys_of(self.running.seen.phase, paused=shown.paused)
        now_called = {"next": shown.space} if self._lessons else {"next": shown.space, "lessons": ""}
        state = self.running.sitting.state
        if done := ticked_count(state.step, self.running.seen.step.checklist, state):
            now_called["step-sheet"] = f"{done} ticked"
        self.query_one(KeyLine).show(keys_at_foot(self, Place.SITTING, now_called, only))

    def _draw_large(self, shown: Showing, blink: bool) -> None:
        """Word, figure, marks and scale: what is taken in at a glance."""
        room = self._arrangement
        waits = host_of(self).aloud.unanswered
        for name, mark in (("#marks", shown.mark), ("#foot-marks", shown.foot_mark)):
            row = self.query_one(name, MarkRow)
            # What nobody has answered for long blinks, though nothing is wrong yet.
            row.mark = replace(mark, alarm=True) if waits is not None and waits.urgency >= _BLINKS_FROM else mark
            row.blink_on = blink
        hero = self.query_one(Hero)
        # Where there is no line below to say it, what the figure stands on is said beside it.
        unit = shown.unit if room.lines else f"{shown.unit} {shown.basis}".strip()
        hero.said = Lettering(
            word=shown.word,
            figure=shown.figure,
            unit=unit,
            span=shown.span,
            word_is_big=shown.word_is_big and room.word > 1,
            ground=shown.ground,
            mark=shown.mark,
            glow=shown.glow,
        )
        # What does not blink need not be drawn anew for it.
        hero.blink_on = blink or not shown.alarm
        scale = self.query_one(UprightScale)
        scale.display = room.scale > 0 and bool(shown.scale.limits)
        scale.show(shown.scale, glow=shown.glow)

    def _draw_lines(self, shown: Showing) -> None:
        """Step, heat, what to reach and how, in letters as large as there is room for."""
        room, blocks = self._arrangement, self._settings.blocks
        short = shown.heat.partition(" ")[2]
        heat = (shown.heat, short, short.replace(" of ", "/")) if shown.heat else ()
        muted = "muted" if host_of(self).aloud.muted else ""
        tally = tally_text(*shown.tally, width=12, blocks=blocks).plain if shown.heat else ""
        self.query_one("#head", BigLine).show(
            (shown.step, shown.title), heat if room.heat_at_head else (), aside=(shown.clock, tally, muted)
        )
        self.query_one("#small-word", SplitLine).show(shown.word, shown.basis)
        aim = shown.aim
        reach = self.query_one("#reach", BigLine)
        reach.show(aim.large, () if room.heat_at_head else heat, lead=aim.lead)
        self.query_one("#label", SplitLine).show(shown.label, shown.work)
        rest = "; ".join(aim.rest) if reach.says_all else aim.text
        left, right = (shown.cue, shown.then if reach.says_all else aim.text) if shown.cue else (rest, shown.then)
        # The cue may have large letters to itself; what comes then gives way to it.
        beside = right if not self._far and (room.cue == 1 or not shown.cue) and self._both_fit(left, right) else ""
        cue = self.query_one("#cue", BigLine)
        cue.show((left,), (beside,) if beside else ())
        cue.set_class(bool(shown.cue), "said")
        self.query_one(ChalkTally).counts = shown.tally

    def _both_fit(self, left: str, right: str) -> bool:
        """Whether two texts have room beside each other below the figure."""
        return cell_len(left) + cell_len(right) + _APART <= self.app.size.width - self._arrangement.side

    def _draw_call(self, shown: Showing, now: float) -> None:
        line = self.query_one("#call", SplitLine)
        if self._notice is not None and now - self._notice[1] >= _NOTICE:
            self._notice = None
        if self._notice is not None:
            line.show(self._notice[0])
        else:
            line.show(*self._called(shown))
        line.set_class(self._notice is not None, "notice")
        line.set_class(shown.alarm and self._notice is None, "alarm")

    def _called(self, shown: Showing) -> tuple[str, str]:
        """What is called, or else to be minded, and beside it how it stands with the probe."""
        width = self.app.size.width - self._arrangement.side
        call = shown.call
        if not call and shown.caution:
            # What is wrong just now comes before a caution.
            taken = cell_len(shown.probe) + _APART if self._probe_is_lost else 2
            key = shown_key(BY_ID["step-sheet"], self._settings.keys)
            call = shortened(plain(shown.caution), width - taken, key)
        if not call and not self._arrangement.side and not self.query_one(Below).reads:
            key = shown_key(BY_ID["lessons"], self._settings.keys)
            call = shortened(lesson_line(self._lessons, key), width - 2, key)
        # What is called, or to be minded, is read to its end.
        said = (f"{self._hands}, {shown.probe}" if self._hands else shown.probe, shown.probe)
        fits = (text for text in said if not shown.alarm and self._both_fit(call, text))
        return call, next(fits, "")

    def _draw_below(self, seen: Glance, at: float) -> None:
        """The trace, or the instruction while there is time for it; and what stands at the side."""
        below = self.query_one(Below)
        below.reads = _wanted(seen.phase) is not Wanted.WORK and not self._arrangement.side
        sitting = self.running.sitting
        ticked = items_ticked(sitting)
        place = (seen.step_number, seen.heat, seen.phase, sitting.state.finished, ticked)
        if place != self._told:
            self._told = place
            units, width = self._settings.units, self.app.size.width
            few = for_little_room(self._lessons, shown_key(BY_ID["lessons"], self._settings.keys))
            below.tell(instruction_text(seen.step, width - 2, units, few, ticked))
            learned = [recalled_line(one) for one in self._lessons]
            side = side_text(seen.step, self._arrangement.side - 4, units, learned, ticked)
            self.query_one(Side).tell(side, *step_list(sitting, units))
        below.draw_trace(at, self.app.size.width)

    def _follow(self, seen: Glance) -> None:
        """Show the summary at the end, and take it away when the end was taken back."""
        if seen.finished and not self._asked:
            from tui.live.finished import FinishedScreen

            self._asked = True
            self.app.push_screen(FinishedScreen(self.running))
        elif not seen.finished:
            self._asked = False

    @property
    def _lessons(self) -> tuple[Recalled, ...]:
        """The lessons of earlier sittings on the step at hand."""
        return self.running.logged.lessons(self.running.sitting.state.step)

    # Room

    def _arrange(self, width: int, height: int) -> None:
        wanted, why = _wanted(self.running.sitting.state.phase), self.running.logged.trouble
        warning = warning_rows(why, width, height, far=self._far)
        height -= len(warning)
        self._arrangement = room = far(height) if self._far else arrange(width, height, wanted)
        self._arranged_for = wanted, why
        self._rows("#trouble", len(warning))
        self.query_one("#trouble", StillText).update(Content("\n".join(warning)))
        self._rows("#head", room.head)
        self._rows("#marks", room.marks)
        self._rows("#foot-marks", room.marks)
        self._rows("#reach", room.reach)
        self._rows("#cue", room.cue)
        for name in ("#label", "#call"):
            self._rows(name, 1 if room.lines else 0)
        self._rows("#keys", 0 if self._far else room.foot)
        self.query_one("#keys").styles.padding = (0, 0 if room.small else 1)
        self._rows("#chalk", room.foot if self._far else 0)
        self.query_one(UprightScale).styles.width = room.scale
        side = self.query_one(Side)
        side.display = room.side > 0
        side.styles.width = room.side
        below = self.query_one(Below)
        below.display = room.below > 0
        roomy = wanted is Wanted.READING and room.below >= 2 * _ROOMY
        below.styles.padding = (1 if roomy else 0, 1, 0, 1)
        # A word in one row is written, not drawn.
        written = 1 if room.word == 1 else 0
        self._rows("#small-word", written)
        self._rows("#big", room.word + room.figure - written)
        self.query_one(Hero).word_rows = room.word - written
        self._told = ()

    def _rows(self, name: str, rows: int) -> None:
        part = self.query_one(name, Widget)
        part.display = rows > 0
        part.styles.height = rows

    # Keys

    def _answer(self, text: str) -> None:
        """Tell what a word has brought about."""
        lost = self.running.logged.trouble is not None
        self.notice(f"{text}; not on the disk" if lost else text, host_of(self).clock())

    def action_next(self) -> None:
        host_of(self).say(Word.NEXT, key="next")

    def _briskly(self, act: Callable[[], None]) -> None:
        """Do it at each press of its key, however brisk; not any more where another screen has come meanwhile."""

        def while_here() -> None:
            if self.is_current:
                act()

        host_of(self).presses.briskly(while_here, self.set_timer)

    def action_undo(self) -> None:
        self._briskly(self._undo)

    def _undo(self) -> None:
        what, asked = last_word(self.running.sitting.state), self.running.seen.asked
        if not host_of(self).say(Word.UNDO, sure=True):
            return
        if asked is None:
            key = shown_key(BY_ID["redo"], self._settings.keys)
            self._answer(f"taken back: {what}; {key} brings it back")
        elif asked.doubt is not Doubt.WHERE:
            self._answer(f'"{asked.word}" is not taken; all that was said before stays')

    def action_redo(self) -> None:
        self._briskly(self._redo)

    def _redo(self) -> None:
        if host_of(self).say(Word.REDO, sure=True):
            self._answer(f"it holds again: {last_word(self.running.sitting.state)}")

    def action_earlier(self) -> None:
        self._briskly(self._earlier)

    def _earlier(self) -> None:
        state = self.running.sitting.state
        if host_of(self).say(Word.EARLIER, sure=True):
            ago = show_clock(self.running.sitting.now - state.last_since())
            self._answer(f"{last_word(state)}: {ago} ago")

    def action_in(self) -> None:
        host_of(self).say(Word.IN)

    def action_out(self) -> None:
        host_of(self).say(Word.OUT)

    def action_flux(self) -> None:
        host_of(self).say(Word.FLUX)

    def action_repeat(self) -> None:
        if host_of(self).say(Word.REPEAT):
            key = shown_key(BY_ID["keep-heats"], self._settings.keys)
            more = f"; {key} writes it into a copy of the plan" if self._heats_as_done() else ""
            self._answer(f"one heat more{more}")

    def action_keep_heats(self) -> None:
        from tui.screens import keep_heats

        # Aside: the next word need not wait for the disk.
        self.run_worker(keep_heats(host_of(self), self.running.sitting.plan, self._heats_as_done()))

    def _heats_as_done(self) -> dict[int, int]:
        """The steps that took other heats than planned, with how many it were."""
        from plans.logbook import heats_done

        sitting = self.running.sitting
        return heats_as_done(sitting.plan, sitting.state, heats_done(sitting))

    def action_on(self) -> None:
        host_of(self).say(Word.ON)

    def action_back(self) -> None:
        host_of(self).say(Word.BACK)

    def action_pause(self) -> None:
        host_of(self).say(Word.RESUME if self.running.sitting.state.paused else Word.PAUSE)

    def action_note(self) -> None:
        from tui.live.typed import ask_note

        ask_note(host_of(self))

    def action_measured(self) -> None:
        from tui.live.typed import ask_measured

        ask_measured(host_of(self))

    def action_step_sheet(self) -> None:
        from tui.live.step_sheet import StepSheet

        self.app.push_screen(StepSheet(self.running.sitting, [recalled_line(one) for one in self._lessons]))

    def action_lessons(self) -> None:
        from tui.live.lessons import NONE, LessonSheet

        if self._lessons:
            running = self.running
            rehearsal = running.logged.journal.header.rehearsal
            self.app.push_screen(LessonSheet(self._lessons, running.sitting.plan, rehearsal))
        else:
            self.notice(NONE, host_of(self).clock())

    def action_far(self) -> None:
        self._far = not self._far
        self.set_class(self._far, "far")
        self._arrange(*self.app.size)
        self.redraw(host_of(self).clock())

    def action_mute(self) -> None:
        app = host_of(self)
        app.aloud.muted = not app.aloud.muted
        heard = "bell and voice" if app.aloud.speaks else "the bell"
        self.notice(f"{heard} {'off' if app.aloud.muted else 'on again'}", app.clock())

    def action_talk(self) -> None:
        app = host_of(self)
        if not app.aloud.speaks:
            self.notice("no speech command was found: only the bell is heard", app.clock())
            return
        volume = app.aloud.change_volume()
        self.notice(f"said aloud: {'nothing' if volume is None else volume.value}", app.clock())

    def action_faster(self) -> None:
        self._speed(2.0)

    def action_slower(self) -> None:
        self._speed(0.5)

    def _speed(self, factor: float) -> None:
        if not self.running.change_speed(factor):
            self.notice("only a rehearsal can go faster or slower", host_of(self).clock())

    def action_leave(self) -> None:
        from tui.live.leave import ask_to_leave

        ask_to_leave(host_of(self))

    def on_key_line_clicked(self, message: KeyLine.Clicked) -> None:
        self.call_later(self.run_action, message.action)
