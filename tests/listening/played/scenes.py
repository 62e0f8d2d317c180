"""What the work goes through: heats at the anvil, hours of nothing, a skin just above its limit, normalizing."""

from __future__ import annotations

from tests.listening.played.forge import Forge

WELD_AT, COLD_BELOW = 1240.0, 1130.0
"""[degC]"""
NORMALIZE_AT, BLACK_BELOW = 900.0, 480.0
"""[degC]"""


def weld_heats(
    forge: Forge,
    heats: int,
    touch_every: float | None = None,
    bench: float = 20.0,
    least: float = 20.0,
    most: float = 60.0,
    lowest: float = 900.0,
    highest: float = COLD_BELOW - 60,
) -> None:
    """Up to welding heat, held, struck until it is too cold, and in again.

    Args:
        forge: where
        heats: how many
        touch_every: on the anvil about so often while it is out [s]
        bench: before the first one [s]
        least: held at heat at least so long [s]
        most: and at most so long [s]
        lowest: the coldest that a strike may end [degC]
        highest: the warmest [degC]
    """
    forge.go(bench)
    for _ in range(heats):
        forge.put_in()
        forge.heat_up(WELD_AT + 4, forge.chance.uniform(least, most))
        forge.take_out()
        forge.cool_down(forge.chance.uniform(lowest, highest), touch_every)
    forge.put_in(least * 2)


def held_in_the_fire(forge: Forge, hours: float, look_every: float | None = None) -> None:
    """One heat, and then hours in a fire that wanders; now and then somebody opens the door and looks."""
    forge.go(20.0)
    forge.put_in()
    forge.heat_up(WELD_AT + 4, 0)
    while forge.at < hours * 3600:
        forge.go(600.0 if look_every is None else forge.chance.uniform(0.5, 1.5) * look_every)
        if look_every is not None:
            forge.open_door()


def normalizing(forge: Forge, cycles: int, targets: tuple[float, ...], soak: float, gusts: bool = False) -> None:
    """Heats at falling targets, each cooled in the air until it is black; with gusts, the air does not stand still."""
    for cycle in range(cycles):
        target = targets[min(cycle, len(targets) - 1)]
        forge.burner, forge.target = target + 35, target
        forge.put_in()
        forge.heat_up(target + 3, soak)
        forge.take_out()
        while forge.work.skin > BLACK_BELOW - 12:
            forge.draught(forge.chance.uniform(3, 6) if gusts else 1.0)
            forge.go(forge.chance.uniform(4, 15))
            forge.draught(1.0)
            forge.go(forge.chance.uniform(4, 15))
        forge.go(10.0)


def left_lying(forge: Forge, hours: float) -> None:
    """One heat, struck, and then the work lies where it is."""
    forge.go(20.0)
    forge.put_in()
    forge.heat_up(WELD_AT + 4, 20)
    forge.take_out(hours * 3600)


def hovering(forge: Forge, celsius: float, hours: float) -> None:
    """A skin that stays within a degree or so of one temperature."""
    wander = 0.0
    while forge.at < hours * 3600:
        wander += forge.chance.gauss(0, 0.1) * forge.moment**0.5 - wander * forge.moment / 60
        forge.work.slices = [celsius + wander]
        forge.pass_over()


def fluxing(forge: Forge, heats: int, at: float = 870.0, seconds: float = 8.0) -> None:
    """Weld heats, each of them taken out on the way up and fluxed."""
    forge.go(20.0)
    for _ in range(heats):
        forge.put_in()
        forge.heat_up(at, 0)
        forge.look(seconds)
        forge.heat_up(WELD_AT + 4, 30)
        forge.take_out()
        forge.cool_down(forge.chance.uniform(820.0, 850.0))
    forge.put_in(40.0)


def looked_at(forge: Forge, cycles: int, target: float, seconds: float = 6.0) -> None:
    """Normalizing, each cycle looked at once at heat, and then in earnest."""
    forge.burner, forge.target = target + 35, target
    forge.go(20.0)
    for _ in range(cycles):
        forge.put_in()
        forge.heat_up(target + 3, 20)
        forge.look(seconds)
        forge.heat_up(target + 3, 80)
        forge.take_out()
        forge.cool_down(BLACK_BELOW - 12)
        forge.go(10.0)


def coming_up(forge: Forge, low: float, recovery: float) -> None:
    """One weld heat in a fire that is far too low and comes up by and by."""
    forge.recovery = recovery
    forge.set_chamber(forge.burner - low)
    forge.go(20.0)
    forge.put_in()
    forge.heat_up(WELD_AT + 4, 60)
    forge.take_out()
    forge.cool_down(WELD_AT - 200)
    forge.put_in(120.0)


def in_a_kiln(forge: Forge, target: float, kelvin_a_minute: float) -> None:
    """One normalizing cycle in a kiln that is cold at first."""
    forge.go(20.0)
    forge.sag, forge.recovery, forge.burner = 0.0, 1.0, 22.0
    forge.set_chamber(22.0)
    forge.target = target
    forge.put_in()
    while forge.burner < target + 10:
        forge.burner += kelvin_a_minute / 60
        forge.go(1.0)
    forge.heat_up(target, 80)
    forge.take_out()
    forge.cool_down(BLACK_BELOW - 12)
    forge.go(10.0)


def turned_down(forge: Forge, heats: int, by: float, recovery: float) -> None:
    """Weld heats in each of which somebody turns the burner down while the work soaks."""
    forge.go(20.0)
    burner = forge.burner
    for _ in range(heats):
        forge.put_in()
        forge.heat_up(WELD_AT + 4, 20)
        usual, forge.recovery = forge.recovery, recovery
        forge.burner = burner - by
        forge.go(120.0)
        forge.burner, forge.recovery = burner, usual
        forge.go(60.0)
        forge.take_out()
        forge.cool_down(WELD_AT - 200)
    forge.put_in(40.0)


def in_changing_draughts(forge: Forge, cycles: int, target: float) -> None:
    """Normalizing in a draught that is another one every few seconds, from still air to a gale."""
    forge.burner, forge.target = target + 35, target
    forge.go(20.0)
    for _ in range(cycles):
        forge.put_in()
        forge.heat_up(target + 3, 70)
        forge.take_out()
        while forge.work.skin > BLACK_BELOW - 12:
            forge.draught(forge.chance.choice((1.0, 1.0, forge.chance.uniform(2, 20))))
            forge.go(forge.chance.uniform(4, 25))
        forge.go(10.0)
