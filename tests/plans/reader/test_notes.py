"""What is odd in a plan that can be followed: the steel that it makes or loses, its steels, heats named by colour.

Volumes are sums done by hand beside the numbers; 1 to 3 % of scale a heat is common practice, no source.
"""

from __future__ import annotations

import pytest

from plans.errors import Fault, FaultKind
from plans.reader import ShelfPlan, notes_on, read_plan
from tests.shelf_plans import shelf_plans

HEAD = 'heatbook = 1\ntitle = "A plan"\n'
BAR = '[[bar]]\nname = "bar"\nsteel = "1084"\nsection = "30 x 20 mm"\nlength = "150 mm"\n'
DRAW = '[[step]]\ntitle = "Draw"\nkind = "draw"\nfire = "1150 degC"\nkeep_above = "900 degC"\n'
WELD = DRAW.replace('"draw"', '"weld"')
WARNING, NOTE = FaultKind.WARNING, FaultKind.NOTE


def notes(text: str) -> tuple[Fault, ...]:
    return notes_on(read_plan(HEAD + text, "plan", "plan.toml"), "plan.toml")


def kinds(text: str) -> list[tuple[str, FaultKind]]:
    return [(note.key, note.kind) for note in notes(text)]


def drawn(reach: str, length: str, heats: int = 1) -> str:
    return f'heats = {heats}\nreach = "{reach}"\nreach_length = "{length}"\n'


@pytest.mark.parametrize("entry", shelf_plans(None), ids=lambda entry: entry.name)
def test_nothing_is_odd_in_the_plans_that_ship(entry: ShelfPlan) -> None:
    assert entry.plan is not None
    assert notes_on(entry.plan, "plan.toml") == ()


# 30 x 20 x 150 = 90,000 mm3; at 30 x 10 mm that is 300 mm, less 1 to 3 % of scale in each heat


@pytest.mark.parametrize(
    ("length", "heats", "kind"),
    [
        ("451 mm", 1, WARNING),  # 135,300 mm3
        ("316 mm", 1, WARNING),  # 5.3 % more than there is
        ("314 mm", 1, None),  # 4.7 %: what rounding of the sides may make of it
        ("295 mm", 1, None),
        ("263 mm", 1, None),  # 300 x 0.97 x 0.9 = 262: scale, and a tenth trimmed
        ("260 mm", 1, NOTE),
        ("260 mm", 3, None),  # 300 x 0.97^3 x 0.9 = 246
        ("240 mm", 3, NOTE),
        ("100 mm", 1, NOTE),
    ],
)
def test_steel_that_is_made_is_warned_of_and_steel_that_is_gone_is_noted(
    length: str, heats: int, kind: FaultKind | None
) -> None:
    found = kinds(BAR + DRAW + drawn("30 x 10 mm", length, heats))
    assert found == ([("reach_length", kind)] if kind else [])


def test_a_warning_names_line_and_lengths() -> None:
    (note,) = notes(BAR + DRAW + drawn("30 x 10 mm", "451 mm", 2))
    said = str(note)
    assert said.startswith('plan.toml:15: warning: step 1 "Draw": reach_length is 451 mm (17 3/4 in), but ')
    assert "gives 300 mm" in said
    # 300 x 0.97^2 = 282, 300 x 0.99^2 = 294
    assert "write 282 mm" in said
    assert "to 294 mm" in said
    assert said.isprintable()


def test_the_form_of_a_section_counts() -> None:
    # a wedge of 30 x 10 to 2 mm has (10 + 2) / 2 x 30 = 180 mm2: 90,000 / 180 = 500 mm
    assert kinds(BAR + DRAW + drawn("wedge 30 x 10 mm to 2 mm", "490 mm")) == []
    assert kinds(BAR + DRAW + drawn("wedge 30 x 10 mm to 2 mm", "530 mm")) == [("reach_length", WARNING)]
    # round 20 mm: 314.16 mm2, 286 mm
    assert kinds(BAR + DRAW + drawn("round 20 mm", "283 mm")) == []
    assert kinds(BAR + DRAW + drawn("round 20 mm", "305 mm")) == [("reach_length", WARNING)]


def test_upsetting_makes_it_shorter() -> None:
    # 35 x 20 = 700 mm2: 129 mm
    assert kinds(BAR + DRAW + drawn("35 x 20 mm", "127 mm")) == []
    assert kinds(BAR + DRAW + drawn("35 x 20 mm", "150 mm")) == [("reach_length", WARNING)]


def test_where_a_length_is_not_known_nothing_is_said() -> None:
    assert kinds(BAR + DRAW + 'reach = "30 x 10 mm"\n') == []
    assert kinds(BAR + DRAW + 'reach_length = "900 mm"\n') == []
    assert kinds(DRAW + 'section = "30 x 20 mm"\n' + drawn("30 x 10 mm", "900 mm")) == []


def test_a_weld_may_join_pieces_but_makes_no_steel() -> None:
    # a back of 30 x 12 mm and an edge of 30 x 8: the step has the section of the back alone, and ends with both
    bars = BAR.replace('"30 x 20 mm"', '"30 x 12 mm"') + BAR.replace('"30 x 20 mm"', '"30 x 8 mm"')
    begins = 'section = "30 x 12 mm"\nlength = "150 mm"\n'
    assert kinds(bars + WELD + begins + drawn("30 x 19.5 mm", "151 mm")) == [("reach_length", NOTE)]
    assert kinds(bars + WELD + begins + drawn("30 x 19.5 mm", "451 mm")) == [("reach_length", WARNING)]
    assert kinds(bars + WELD + begins.replace("12", "20") + drawn("30 x 19.5 mm", "151 mm")) == []


def test_a_step_begins_with_no_more_than_the_bars_hold() -> None:
    begins = 'section = "30 x 20 mm"\nlength = "{}"\n'
    assert kinds(BAR + DRAW + begins.format("155 mm")) == []  # 3 % more
    (note,) = notes(BAR + DRAW + begins.format("450 mm"))
    assert (note.key, note.kind) == ("length", WARNING)
    assert "3 times as much steel as the bars hold" in note.what
    # two bars hold twice as much, and a fold doubles the thickness while it halves the length
    assert kinds(BAR + BAR + DRAW + begins.format("300 mm")) == []
    assert kinds(BAR + DRAW + 'section = "30 x 40 mm"\nlength = "75 mm"\n') == []


def test_a_step_may_begin_with_less_or_another_piece_and_is_asked_about_more_of_the_same() -> None:
    first = DRAW + drawn("30 x 10 mm", "295 mm")
    assert kinds(BAR + first + DRAW + 'section = "30 x 10 mm"\nlength = "120 mm"\n') == []
    assert kinds(BAR + first + DRAW + 'section = "12 x 8 mm"\nlength = "60 mm"\n') == []
    again = 'section = "30 x 10 mm"\nlength = "600 mm"\n'
    assert kinds(
        DRAW + 'section = "30 x 20 mm"\nlength = "150 mm"\n' + drawn("30 x 10 mm", "295 mm") + DRAW + again
    ) == [("length", NOTE)]


def test_one_slip_gives_one_note() -> None:
    wrong = DRAW + drawn("30 x 10 mm", "900 mm")
    right = DRAW + drawn("30 x 5 mm", "580 mm")
    assert kinds(BAR + wrong + right) == [("reach_length", WARNING)]
    # a step with a section and a length of its own is judged again
    own = DRAW + 'section = "30 x 10 mm"\nlength = "295 mm"\n' + drawn("30 x 5 mm", "900 mm")
    assert kinds(BAR + wrong + right + own) == [("reach_length", WARNING)] * 2
    # and one that begins with too much is not told of what it would lose
    begins = DRAW + 'section = "30 x 20 mm"\nlength = "450 mm"\n' + drawn("30 x 10 mm", "295 mm")
    assert kinds(BAR + begins) == [("length", WARNING)]


@pytest.mark.parametrize(
    ("step", "found"),
    [
        ('thin = "10 x 8 mm"\nthin_length = "100 mm"\n' + drawn("30 x 10 mm", "295 mm"), []),
        ('thin = "10 x 8 mm"\nthin_length = "400 mm"\n' + drawn("30 x 10 mm", "295 mm"), [WARNING]),
        ('thin = "10 x 8 mm"\nthin_length = "200 mm"\nreach = "30 x 10 mm"\n', []),  # it will be 300 mm
        ('thin = "10 x 8 mm"\nthin_length = "400 mm"\nreach = "30 x 10 mm"\n', [WARNING]),
        ('thin = "10 x 8 mm"\nthin_length = "151 mm"\n', []),
        ('thin = "10 x 8 mm"\nthin_length = "200 mm"\n', [WARNING]),
    ],
)
def test_a_thin_part_is_no_longer_than_the_work(step: str, found: list[FaultKind]) -> None:
    assert kinds(BAR + DRAW + step) == [("thin_length", kind) for kind in found]


@pytest.mark.parametrize(
    ("steel", "said"),
    [
        ("1085", "it comes close to 1084 (C 0.865 %); its ranges"),
        ("15n2O", "did you mean 15N20 (C 0.75 %, Ni 1.95 %)? Its ranges"),
        ("mild steel", "it comes close to 1018 (C 0.175 %)"),
        ("leaf spring", "heatbook reckon steel --help lists them"),
    ],
)
def test_a_steel_that_is_not_known_is_told_with_what_is_like_it(steel: str, said: str) -> None:
    (note,) = notes(BAR.replace("1084", steel) + '[[step]]\ntitle = "Grind"\nkind = "bench"\n')
    assert (note.where, note.key, note.line, note.kind) == ('bar 1 "bar"', "steel", 5, NOTE)
    assert f'is "{steel}", which is not among the steels known here' in note.what
    assert said in note.hint
    assert "not watched" in note.hint


@pytest.mark.parametrize(
    ("said", "noted"),
    [
        ("Flux it at orange heat.", "orange heat"),
        ("Bring it to a bright yellow heat, then strike.", "bright yellow heat"),
        ("Quench at cherry red. Not above 820 degC.", "cherry red"),
        ("Brushed, and fluxed at orange", "orange"),
        ("Take it out at a dull red.", "dull red"),
        ("Flux it at orange heat, about 900 degC.", ""),
        ("Quench at cherry red (800 °C).", ""),
        ("Heat to cherry red, 1500 F.", ""),
        ("White sparks are burning steel.", ""),
        ("Black all over before the next heat", ""),
        ("Draw the temper to straw and no further.", ""),
        ("A handle of cherry, painted red.", ""),
    ],
)
def test_a_heat_that_is_named_by_its_colour_alone_is_noted(said: str, noted: str) -> None:
    for key, text in (("instruction", f'instruction = "{said}"\n'), ("checklist[1]", f'checklist = ["{said}"]\n')):
        found = notes(BAR + DRAW + text)
        assert [(note.key, note.kind, note.line) for note in found] == ([(key, NOTE, 13)] if noted else [])
        assert all(f'"{noted}"' in note.what for note in found)
