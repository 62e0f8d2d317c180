"""A rehearsal without a forge: a simulated fire, bar, probe and smith on a real pseudo-terminal."""

from devices.rehearsal.rehearsal import MOMENT, PROFILE, Rehearsal

__all__ = ["MOMENT", "PROFILE", "Rehearsal"]
