"""What is plugged in: probes, ports, pedal and voice, and the rehearsal that stands in for a probe."""

from typing import TYPE_CHECKING

from plans.front import hand_on

if TYPE_CHECKING:
    from devices.clock import Clock as Clock, through_sleep as through_sleep
    from devices.debounce import REPEAT as REPEAT, Debounce as Debounce
    from devices.errors import DeviceError as DeviceError
    from devices.finder import describe_ports as describe_ports, find_ports as find_ports, say_ports as say_ports
    from devices.link import Link as Link
    from devices.link_state import LinkState as LinkState
    from devices.pedal_line import (
        ControlLine as ControlLine,
        PedalLine as PedalLine,
        PedalWatch as PedalWatch,
        Power as Power,
    )
    from devices.profile import Profile as Profile
    from devices.profile_reader import find_profile as find_profile, profile_names as profile_names
    from devices.recording import Entry as Entry, read_recording as read_recording
    from devices.speech_command import find_command as find_command
    from devices.voice import Voice as Voice
    from devices.watch import watch_probe as watch_probe
else:
    __getattr__ = hand_on(__name__)
