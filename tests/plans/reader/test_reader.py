"""From a plan file to a plan: what is read, what is filled in, and files that are none."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from plans.errors import Fault, FaultKind, PlanError
from plans.phase import PhaseKind
from plans.plan import Phase, Plan, StepKind, Target
from plans.prose import in_units
from plans.reader import SHELF, find_plan, read_plan, read_plan_file
from plans.shapes import Section
from plans.units import Units, kelvin
from tests.shelf_plans import shelf_plans

HEAD = 'heatbook = 1\ntitle = "A plan"\n'
BAR = '[[bar]]\nname = "bar"\nsteel = "1084"\nsection = "25 x 10 mm"\nlength = "200 mm"\n'
DRAW = '[[step]]\ntitle = "Draw"\nkind = "draw"\nfire = "1150 degC"\nkeep_above = "900 degC"\n'
BENCH = '[[step]]\ntitle = "Grind"\nkind = "bench"\n'


def plan(text: str) -> Plan:
    return read_plan(HEAD + text, "plan", "plan.toml")


def faults(text: str | bytes) -> tuple[Fault, ...]:
    with pytest.raises(PlanError) as caught:
        read_plan(text if isinstance(text, str) else text.decode(), "plan", "plan.toml")
    return caught.value.faults


def test_every_key_comes_through_in_si() -> None:
    text = """about = "First\\nline.\\n\\nSecond."
[[bar]]
name = "edge"
steel = "1084"
section = "1 x 1/4 in"
length = "10 in"
[[step]]
title = "Weld"
kind = "weld"
instruction = \"\"\"
Out of the fire
and strike.

Then back.
\"\"\"
phases = ["fire", "soak", "strike", "air", "quench", "oven", "dip", "bench"]
fire = "2372 degF"
heat_to = "1250 degC"
flux_at = "1600 degF"
keep_above = "1100 degC"
burn_above = "1593.15 K"
soak = "2 min"
soak_at_most = "5 min"
even_within = "18 degF"
heats = 2
section = "30 x 20 mm"
length = "150 mm"
reach = "round 25 mm"
reach_length = "170 mm"
turn_every = "6 s"
checklist = [" Brushed ", "Fluxed"]
cautions = ["Flux flies."]
air = { until = "480 degC", for = "10 min" }
quench = { medium = "oil", for = "10 s", within = "3 s" }
oven = { at = "200 degC", for = "2 h", within = "1 h" }
dip = { medium = "ferric chloride", for = "12 min" }
cues = { fire = "turn it", strike = " light, quick blows, middle first ", dip = "move it" }
"""
    read = plan(text)
    assert (read.name, read.title, read.about) == ("plan", "A plan", "First line.\n\nSecond.")
    assert read.source == HEAD + text
    (bar,) = read.bars
    assert (bar.name, bar.steel) == ("edge", "1084")
    assert (bar.section.width, bar.section.thickness) == (pytest.approx(0.0254), pytest.approx(0.00635))
    assert bar.length == pytest.approx(0.254)
    (step,) = read.steps
    assert (step.title, step.kind, step.heats) == ("Weld", StepKind.WELD, 2)
    assert step.instruction == "Out of the fire and strike.\n\nThen back."
    assert [target.heat_to for target in step.targets] == [kelvin(1250)] * 2
    assert [target.fire for target in step.targets] == [pytest.approx(kelvin(1300))] * 2
    assert (step.keep_above, step.burn_above) == (kelvin(1100), 1593.15)
    assert step.flux_at == pytest.approx(kelvin(871.1), abs=0.1)
    assert step.even_within == pytest.approx(10.0)
    assert (step.section, step.length) == (Section(0.03, 0.02), 0.15)
    assert (step.reach, step.reach_length) == (Section.round(0.025), 0.17)
    assert step.turn_every == 6.0
    assert (step.checklist, step.cautions) == (("Brushed", "Fluxed"), ("Flux flies.",))
    assert step.phases == (
        Phase(PhaseKind.FIRE, cue="turn it"),
        Phase(PhaseKind.SOAK, seconds=120.0, at_most=300.0),
        Phase(PhaseKind.STRIKE, cue="light, quick blows, middle first"),
        Phase(PhaseKind.AIR, seconds=600.0, until=kelvin(480)),
        Phase(PhaseKind.QUENCH, seconds=10.0, within=3.0, medium="oil"),
        Phase(PhaseKind.OVEN, seconds=7200.0, at=kelvin(200), within=3600.0),
        Phase(PhaseKind.DIP, seconds=720.0, medium="ferric chloride", cue="move it"),
        Phase(PhaseKind.BENCH),
    )


def test_what_is_left_out_is_filled_in() -> None:
    (step,) = plan(BAR + DRAW).steps
    assert [phase.kind for phase in step.phases] == [PhaseKind.FIRE, PhaseKind.SOAK, PhaseKind.STRIKE]
    assert step.phases[1] == Phase(PhaseKind.SOAK)
    assert step.heats == 1
    assert step.targets == (Target(kelvin(1150), kelvin(1120)),)
    assert step.even_within == 15.0
    assert (step.section, step.length) == (Section(0.025, 0.010), 0.2)
    assert (step.reach, step.reach_length, step.burn_above, step.turn_every) == (None, None, None, None)
    assert step.flux_at is None
    assert {phase.cue for phase in step.phases} == {""}


def test_a_list_of_fires_gives_the_number_of_heats() -> None:
    text = DRAW.replace('"1150 degC"', '["1150 degC", "1130 degC", "1100 degC"]') + 'heat_to = "1050 degC"\n'
    (step,) = plan(BAR + text).steps
    assert step.heats == 3
    assert [target.fire for target in step.targets] == [kelvin(1150), kelvin(1130), kelvin(1100)]
    assert {target.heat_to for target in step.targets} == {kelvin(1050)}


@pytest.mark.parametrize(
    ("reach", "heats"),
    # a fifth of the area a heat: 250 x 0.8 = 200, x 0.8 = 160, x 0.8 = 128 mm2
    [
        ("20 x 10 mm", 1),
        ("20 x 9.9 mm", 2),
        ("16 x 10 mm", 2),
        ("16 x 8 mm", 3),
        ("15.9 x 8 mm", 4),
        ("24.9 x 10 mm", 1),
    ],
)
def test_auto_heats_take_a_fifth_of_the_area_each(reach: str, heats: int) -> None:
    (step,) = plan(BAR + DRAW + f'heats = "auto"\nreach = "{reach}"\n').steps
    assert step.heats == heats == len(step.targets)


def test_a_step_begins_with_what_the_step_before_left() -> None:
    first = DRAW + 'reach = "20 x 8 mm"\nreach_length = "300 mm"\n'
    third = DRAW + 'section = "12 x 8 mm"\n'
    steps = plan(BAR + first + BENCH + DRAW + third + DRAW).steps
    assert [(step.section, step.length) for step in steps] == [
        (Section(0.025, 0.010), 0.2),
        (Section(0.020, 0.008), 0.3),
        (Section(0.020, 0.008), 0.3),
        (Section(0.012, 0.008), None),
        (Section(0.012, 0.008), None),
    ]


def test_a_fire_above_the_burn_limit_is_allowed_and_warned_of() -> None:
    (step,) = plan(BAR + DRAW + 'heat_to = "1050 degC"\nburn_above = "1120 degC"\ncautions = ["Own."]\n').steps
    assert step.cautions[0] == "Own."
    said = in_units(step.cautions[1], Units.INCH)
    assert said.startswith("The fire (2102 degF) is hotter than the burn limit (2048 degF)")
    (cooler,) = plan(BAR + DRAW + 'burn_above = "1160 degC"\n').steps
    assert cooler.cautions == ()


def test_all_faults_are_told_at_once_one_a_line() -> None:
    text = HEAD + BAR.replace("200 mm", "200") + DRAW.replace("900 degC", "1300 degC").replace("kind", "kidn") + BENCH
    found = faults(text.replace("kidn", "kind").replace('"A plan"', '""') + 'instrution = "Grind."\n')
    assert [(fault.line, fault.key) for fault in found] == [
        (2, "title"),
        (7, "length"),
        (12, "keep_above"),
        (16, "instrution"),
    ]
    lines = str(PlanError(found)).split("\n")
    assert lines[2] == (
        'plan.toml:12: step 1 "Draw": keep_above is 1300 degC (2372 degF), hotter than the fire, '
        "1150 degC (2102 degF); lower it or raise the fire"
    )
    assert all(line.startswith("plan.toml:") for line in lines)


def test_one_slip_gives_one_fault() -> None:
    # without its fire the step could not be judged, nor the section of the next one
    found = faults(HEAD + DRAW.replace("1150 degC", "1150") + 'section = "25 x 10 mn"\n' + DRAW)
    assert [(fault.line, fault.key) for fault in found] == [(6, "fire"), (8, "section")]


def test_a_very_wrong_plan_is_cut_short() -> None:
    found = faults(HEAD + BENCH + "".join(f"wrong_{number} = 1\n" for number in range(50)))
    assert len(found) == 50
    assert str(PlanError(found)).split("\n")[20:] == ["... and 30 more"]


# Files


def write(path: Path, content: str | bytes) -> Path:
    path.write_bytes(content.encode() if isinstance(content, str) else content)
    return path


def refusal(path: Path) -> Fault:
    with pytest.raises(PlanError) as caught:
        read_plan_file(path)
    (fault,) = caught.value.faults
    assert fault.kind is FaultKind.FILE
    assert fault.file.endswith(path.name)
    return fault


GOOD = HEAD + BENCH


@pytest.mark.parametrize(
    "content",
    [GOOD, "\ufeff" + GOOD, GOOD.replace("\n", "\r\n"), "\ufeff" + GOOD.replace("\n", "\r\n")],
    ids=["plain", "byte order mark", "windows line ends", "both"],
)
def test_reads_what_editors_write(tmp_path: Path, content: str) -> None:
    read = read_plan_file(write(tmp_path / "mine.toml", content))
    assert (read.name, read.title, len(read.steps)) == ("mine", "A plan", 1)


def test_a_fault_after_windows_line_ends_has_its_line(tmp_path: Path) -> None:
    path = write(tmp_path / "mine.toml", "\ufeff" + (GOOD + "wrong = 1\n").replace("\n", "\r\n"))
    with pytest.raises(PlanError, match=r"mine\.toml:6: step 1 \"Grind\": wrong"):
        read_plan_file(path)


@pytest.mark.parametrize(
    ("content", "line", "what"),
    [
        (b"", None, "the file is empty"),
        (b" \n\t\n", None, "the file is empty"),
        (GOOD.encode() + b'about = "\xe4"\n', 6, "not written in UTF-8"),
        (GOOD.encode("utf-16"), None, "UTF-16"),
        (GOOD.encode() + b"x" * 1_000_000, None, "larger than 1 MB"),
        (GOOD.encode() + b"# " + b"x" * 5000, 6, "more than 4000 characters"),
        (GOOD.encode() + b"x = " + b"[" * 3900, None, "too deep"),
        (GOOD.encode() + b"x = \n" + b"y = 1\n", 6, "Invalid value"),
        (GOOD.encode() + b'title = "Again"\n', 6, "title stands twice"),
        (GOOD.encode() + b'about = """never closed\n', 6, "this is no TOML"),
        (GOOD.encode() + b"x = 2024-02-31\n", 6, "this is no TOML"),
        (b"\x00\x01\x02", 1, "this is no TOML"),
    ],
)
def test_files_that_are_no_plans(tmp_path: Path, content: bytes, line: int | None, what: str) -> None:
    fault = refusal(write(tmp_path / "mine.toml", content))
    assert what in fault.what
    assert fault.line == line
    assert str(fault).isprintable()


def test_paths_that_are_no_files(tmp_path: Path) -> None:
    assert "no such file" in refusal(tmp_path / "none.toml").what
    assert "a folder" in refusal(tmp_path).what
    os.mkfifo(tmp_path / "pipe.toml")
    assert "no ordinary file" in refusal(tmp_path / "pipe.toml").what
    (tmp_path / "loop.toml").symlink_to("loop.toml")
    assert "can't be read" in refusal(tmp_path / "loop.toml").what
    with pytest.raises(PlanError, match="can't be read"):
        read_plan_file(Path("with\0zero.toml"))


def test_a_file_that_may_not_be_read(tmp_path: Path) -> None:
    path = write(tmp_path / "mine.toml", GOOD)
    path.chmod(0)
    user = os.geteuid()
    if user == 0:
        os.seteuid(65534)  # root reads everything
    try:
        assert "Permission denied" in refusal(path).what
    finally:
        os.seteuid(user)


def test_a_long_line_of_dotted_keys_is_refused_before_it_takes_minutes(tmp_path: Path) -> None:
    path = write(tmp_path / "mine.toml", GOOD + ".".join("a" * 400_000) + " = 1\n")
    assert refusal(path).line == 6


# The shelf


def test_the_smiths_own_plans_lie_beside_the_shelf_and_stand_in_for_it(tmp_path: Path) -> None:
    write(tmp_path / "mine.toml", GOOD)
    write(tmp_path / "normalize.toml", GOOD.replace("A plan", "My own way"))
    write(tmp_path / "broken.toml", GOOD + "wrong = 1\n")
    write(tmp_path / "notes.txt", "no plan")
    (tmp_path / "folder.toml").mkdir()
    found = {entry.name: entry for entry in shelf_plans(tmp_path)}
    assert list(found) == sorted(found)
    assert set(found) == {"broken", "folder", "mine"} | {path.stem for path in SHELF.glob("*.toml")}
    assert {name for name, entry in found.items() if entry.own} == {"broken", "folder", "mine", "normalize"}
    assert {name for name, entry in found.items() if entry.plan is None} == {"broken", "folder"}
    assert "wrong" in str(found["broken"].error)
    own = found["normalize"].plan
    assert own is not None
    assert own.title == "My own way" == find_plan("normalize", tmp_path).title
    assert find_plan("mine", tmp_path).name == "mine"
    assert find_plan(str(tmp_path / "mine.toml"), None).name == "mine"


def test_a_folder_that_is_not_there_holds_no_plans(tmp_path: Path) -> None:
    assert [entry.name for entry in shelf_plans(tmp_path / "none")] == [entry.name for entry in shelf_plans(None)]


@pytest.mark.parametrize(
    ("name", "hint"),
    [
        ("drawknif", "perhaps drawknife"),
        ("sword", "there are cable-bar, chisel-knife, drawknife"),
        ("", "there are cable-bar"),
        ("\x1b[31mred", "there are cable-bar"),
        ("../secret", "no such file"),
        ("none.toml", "no such file"),
    ],
)
def test_plans_that_are_not_there(name: str, hint: str) -> None:
    with pytest.raises(PlanError) as caught:
        find_plan(name, None)
    assert hint in str(caught.value)
    assert str(caught.value).isprintable()
