"""What is known of a sitting when it begins: the first line of its journal, and the head of its file."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import datetime, timedelta
from itertools import pairwise
from typing import Any, Final

from plans.reading import ProbeOn
from plans.record import record
from plans.record_values import (
    Record,
    check_year,
    count_of,
    maybe_number,
    moment_of,
    record_of,
    records_of,
    seconds_of,
    switch_of,
    text_of,
)
from plans.shop import FIRE_KEY, KEYS, MOST_FUEL, MOST_PRICE, FireAir, FuelRate, Shop

_BY_MASS: Final = ("fuel_kg_per_hour", "fuel_price_per_kg")
_BY_VOLUME: Final = ("fuel_m3_per_hour", "fuel_price_per_m3")
"""How the files call what the fire burns, and what that costs."""
_CURRENCY: Final = "fuel_currency"
_ANY_SEED = 10**100
"""Beyond any seed that anybody types."""
FORMAT: Final = 2
"""Version of the journal's and the sitting's format."""


class NewerFormat(Exception):  # noqa: N818 - no error of the file: it is left as it is
    """A file of the logbook was written by a newer heatbook, and is left as it is."""


@record
class Header:
    """What is known of a sitting when it begins, and of each time that it was gone on with."""

    id: str
    """Id of the sitting, e.g. `20261125-091502-drawknife`."""
    plan: str
    """Name of the plan, as its file has it."""
    title: str
    """Title of the plan, as the smith reads it."""
    source: str
    """Text of the plan, whole: a sitting never depends on a file."""
    started: datetime
    """When the sitting began: wall time with its offset."""
    profile: str = ""
    """Profile that the probe's lines were read by; empty without a probe."""
    port: str = ""
    """Port that the probe was plugged in at; empty without one."""
    probe_on: ProbeOn | None = None
    """Where the probe sat at the beginning; None without one. Each `WentOn` of the log says where from then on."""
    rehearsal: bool = False
    """Whether the forge was simulated."""
    seed: int | None = None
    """Seed of the rehearsal's chance; None for a real sitting."""
    went_on: tuple[tuple[float, datetime], ...] = ()
    """When the sitting was gone on with: seconds since it began, and the wall time that they stand for."""
    shop: Shop = Shop()
    """What the warm model went by, from the beginning to the end."""

    @property
    def burns(self) -> FuelRate | None:
        """What its fire burns in an hour; None where nobody said, and of a rehearsal, whose fire burns nothing."""
        return None if self.rehearsal else self.shop.fuel

    def wall_time(self, at: float) -> datetime:
        """The wall time of a moment of the sitting; `at` in seconds since it began."""
        since, wall = 0.0, self.started
        for seconds, moment in self.went_on:
            if seconds <= at:
                since, wall = seconds, moment
        return wall + timedelta(seconds=at - since)

    def gone_on(self, at: float, now: datetime) -> Header:
        """The header of the same sitting, gone on with at `at` seconds."""
        return replace(self, went_on=(*self.went_on, (round(at, 3), to_millisecond(now))))


def to_millisecond(moment: datetime) -> datetime:
    """The moment cut down to the millisecond, as the logbook's files keep it."""
    return moment.replace(microsecond=moment.microsecond // 1000 * 1000)


def to_record(header: Header) -> dict[str, Any]:
    """The header as a JSON object, units in the key names."""
    return {
        "heatbook": FORMAT,
        "id": header.id,
        "plan": {"name": header.plan, "title": header.title, "source": header.source},
        "started": header.started.isoformat(timespec="milliseconds"),
        "probe": {
            "profile": header.profile,
            "port": header.port,
            "on": None if header.probe_on is None else header.probe_on.value,
        },
        "rehearsal": header.rehearsal,
        "seed": header.seed,
        "shop": {
            **{name: getattr(header.shop, key.attribute) for name, key in KEYS.items()},
            FIRE_KEY: header.shop.fire,
            **_fuel_record(header.shop.fuel),
        },
        "went_on": [
            {"at_seconds": at, "time": moment.isoformat(timespec="milliseconds")} for at, moment in header.went_on
        ],
    }


def from_record(record: Mapping[str, Any]) -> Header:
    """The header from a JSON object that `to_record` made; keys that first versions did not write may be missing.

    Raises:
        NewerFormat: a newer heatbook wrote it.
        ValueError, KeyError, TypeError, AttributeError: it is no header.
    """
    version = record["heatbook"]
    if type(version) is not int or version < 1:
        raise ValueError("no version of the format")
    if version > FORMAT:
        raise NewerFormat
    plan, probe = record["plan"], record["probe"]
    return Header(
        id=text_of(record["id"]),
        plan=text_of(plan["name"]),
        title=text_of(plan["title"]),
        source=text_of(plan["source"]),
        started=moment_of(record["started"]),
        profile=text_of(probe["profile"]),
        port=text_of(probe["port"]),
        probe_on=None if probe["on"] is None else ProbeOn(probe["on"]),
        rehearsal=switch_of(record["rehearsal"]),
        seed=None if record["seed"] is None else count_of(record["seed"], -_ANY_SEED, _ANY_SEED),
        went_on=_went_on(records_of(record["went_on"])),
        # Sittings from before there was a shop, or one of its figures, went by the warm model's own.
        shop=_shop(record_of(record.get("shop", {}))),
    )


def _fuel_record(fuel: FuelRate | None) -> Record:
    if fuel is None:
        return {}
    rate, price = _BY_VOLUME if fuel.mass is None else _BY_MASS
    cost = {} if fuel.price is None else {price: fuel.price, _CURRENCY: fuel.currency}
    return {rate: fuel.volume if fuel.mass is None else fuel.mass} | cost


def _fuel(record: Record) -> FuelRate | None:
    mass, volume = (maybe_number(record.get(rate), 0.0, MOST_FUEL) for rate, _ in (_BY_MASS, _BY_VOLUME))
    if mass is None and volume is None:
        return None
    _, key = _BY_VOLUME if mass is None else _BY_MASS
    price = maybe_number(record.get(key), 0.0, MOST_PRICE)
    return FuelRate(mass, volume, price, text_of(record.get(_CURRENCY, "")))


def check_years(header: Header) -> None:
    """Refuse a header with a wall time that no sitting had.

    Raises:
        ValueError: there is one.
    """
    for moment in (header.started, *(moment for _, moment in header.went_on)):
        check_year(moment)


def _went_on(records: list[Record]) -> tuple[tuple[float, datetime], ...]:
    found = tuple((seconds_of(gap["at_seconds"]), moment_of(gap["time"])) for gap in records)
    if any(later < earlier for (earlier, _), (later, _) in pairwise(found)):
        raise ValueError("times go back")
    return found


def _shop(record: Record) -> Shop:
    found = {key.attribute: maybe_number(record.get(name), key.least, key.most) for name, key in KEYS.items()}
    fire = None if record.get(FIRE_KEY) is None else FireAir(record[FIRE_KEY])
    known = {attribute: value for attribute, value in found.items() if value is not None}
    return Shop(**known, fire=fire, fuel=_fuel(record))
