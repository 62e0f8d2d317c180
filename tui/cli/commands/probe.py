"""`heatbook probe`: which probes there are, and what one says."""

from __future__ import annotations

import argparse
import json
from contextlib import closing
from typing import Any

from devices import DeviceError, describe_ports, find_profile, profile_names, say_ports, watch_probe
from plans.text import printable
from plans.units import Units, kelvin
from tui.config import units_set, user_folders
from tui.terminal import interrupt, told_to_end


def run(chosen: argparse.Namespace) -> int:
    """Answer `probe list` or `probe watch`.

    Returns:
        the exit status
    """
    if chosen.action == "list":
        return _list(chosen.json)
    return _watch(chosen.port, chosen.probe, chosen.json)


def _list(as_json: bool) -> int:
    ports = describe_ports()
    profiles = [_profile(name) for name in profile_names(user_folders().probes)]
    if as_json:
        print(json.dumps({"ports": [port.to_record() for port in ports], "profiles": profiles}, indent=2))
        return 0
    print(say_ports(ports))
    print("\nProfiles:")
    for profile in profiles:
        said = f"{profile['title']}, e.g. {profile['example']}" if profile["good"] else profile["fault"]
        print(printable(f"  {profile['name']:<18} {said}"))
    return 0


def _profile(name: str) -> dict[str, Any]:
    """What the list says of a profile; one that can't be used must not hide the others."""
    try:
        found = find_profile(name, user_folders().probes)
    except DeviceError as error:
        return {"name": name, "title": None, "example": None, "good": False, "fault": str(error)}
    return {"name": name, "title": found.title, "example": found.example, "good": True, "fault": None}


def _watch(port: str, name: str, as_json: bool) -> int:
    try:
        units = units_set()
        with told_to_end(interrupt), closing(watch_probe(port, find_profile(name, user_folders().probes))) as records:
            for record in records:
                print(json.dumps(record) if as_json else f"{record['at']}  {_said(record, units)}", flush=True)
    except KeyboardInterrupt:
        pass  # the way to end it
    return 0


def _said(record: dict[str, Any], units: Units) -> str:
    celsius, count = record["celsius"], record["stands_for"]
    said = str(record["fault"]) if celsius is None else f"{units.to_degrees(kelvin(celsius)):.1f} {units.degree}"
    return said if count == 1 else f"{said}, the median of {count}"
