"""What the smith is to make of each call, in a few words; said by the screen and by the lines without one."""

from __future__ import annotations

from plans.sitting.events import Call

ADVICE = {
    Call.AT_HEAT: "say when the soak begins",
    Call.SOAK_DONE: "take it out",
    Call.TIME_UP: "go on",
    Call.COLD_ENOUGH: "go on",
    Call.TOO_COLD: "stop striking, back in the fire",
    Call.TOO_HOT: "out of the fire, it may burn",
    Call.SOAKED_TOO_LONG: "out of the fire",
    Call.PROBE_LOST: "going by the warm model",
    Call.PROBE_BACK: "going by the probe again",
    Call.ARREST: "possibly; a draught can look like it",
    Call.FIRE_FELL: "its door was opened, or work went in",
    Call.PEAK_MISSED: "this heat was not what the plan wants",
    Call.QUENCH_LATE: "it may not have hardened",
    Call.TEMPER_LATE: "temper it now, it may crack",
}
