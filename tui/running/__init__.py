"""The running sitting: what begins it, what feeds it, and what is heard of it."""

from typing import TYPE_CHECKING

from plans.front import hand_on

if TYPE_CHECKING:
    from tui.running.begin import begin_sitting as begin_sitting
    from tui.running.beginning import (
        NOTHING_KEPT as NOTHING_KEPT,
        Beginning as Beginning,
        nothing_kept as nothing_kept,
    )
    from tui.running.fault_report import report_of as report_of
    from tui.running.inbox import Inbox as Inbox
    from tui.running.leaving import leave as leave, or_go_on as or_go_on
    from tui.running.loading import (
        Loaded as Loaded,
        OnShelf as OnShelf,
        left_of as left_of,
        load as load,
        news_of as news_of,
        open_logbook as open_logbook,
        read_log as read_log,
        read_shelf as read_shelf,
        recover_rehearsals as recover_rehearsals,
    )
    from tui.running.no_traceback import NoTracebackApp as NoTracebackApp
    from tui.running.own_settings import read_own as read_own
    from tui.running.pedal import Lift as Lift, Tell as Tell, stand_by as stand_by
    from tui.running.requests import (
        CompareRequest as CompareRequest,
        First as First,
        LogList as LogList,
        Maker as Maker,
        Outcome as Outcome,
        Reckoner as Reckoner,
        ReviewRequest as ReviewRequest,
        RunRequest as RunRequest,
        Shelf as Shelf,
        TaughtList as TaughtList,
        TrendsRequest as TrendsRequest,
        going_on as going_on,
        plan_called as plan_called,
        recording_of as recording_of,
        rehearsal_of as rehearsal_of,
        sitting_of as sitting_of,
    )
    from tui.running.running_sitting import RunningSitting as RunningSitting
    from tui.running.sound import Aloud as Aloud
    from tui.running.sources import Delivered as Delivered, RecordingSource as RecordingSource
    from tui.running.voices import bell_and_voice as bell_and_voice, voice_alone as voice_alone
else:
    __getattr__ = hand_on(__name__)
