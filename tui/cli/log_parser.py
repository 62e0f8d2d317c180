"""The command line: what can be asked of the log."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from typing import TYPE_CHECKING

from tui.cli.adding import added

if TYPE_CHECKING:
    from tui.cli.adding import Commands


def fill_log(log: argparse.ArgumentParser, _: Sequence[str]) -> None:
    """Add the actions of `heatbook log`, and their options."""
    log.set_defaults(action=None)
    rehearsals = "the rehearsals, which are kept apart"
    log.add_argument("--rehearsals", action="store_true", help=rehearsals)
    one = "a sitting's id, a beginning of it, or `last`"
    kinds = log.add_subparsers(dest="action", metavar="ACTION")
    listed = added(kinds, "list", "log", "the sittings, the newest first")
    listed.epilog = (
        "An EXPRESSION is made of words, which are looked for in title, plan, steels, notes, mark, outcome and date; "
        "of names with a colon: plan: title: steel: note: mark: outcome: since: until: on: is: (finished, unfinished, "
        "running, archived); and of figures by <, <=, >, >= or =: heats, calls, reheats, took, peak, in fire, soaked, "
        "at welding heat, struck, too cold, decarb, scale, fuel, hardness, rating, warp, twist. All of it must be met: "
        "--where 'drawknife steel: 1084 since: 2026-03 peak > 1300 degC'. A sitting whose file was cut short is marked "
        "as damaged."
    )
    listed.add_argument("--where", nargs="+", default=[], metavar="EXPRESSION", help="those alone that are like this")
    listed.add_argument("--archived", action="store_true", help="those that are archived, which no other list has")
    listed.add_argument("--deleted", action="store_true", help="those that can be brought back, the last one first")
    show = added(kinds, "show", "log", "one sitting: heats, calls, notes")
    show.add_argument("id", metavar="ID", help=one)
    learn = added(kinds, "learn", "log", "what a sitting with a probe on the work tells of your shop")
    learn.epilog = (
        "How fast the skin cooled outside the fire, as factors on what the warm model has by itself, one for the air "
        "and one for contact with the tools; and the skin's hammer time as forecast and as measured. Sittings begun "
        "later go by the factors that were kept in the shop file, and give narrower ranges."
    )
    learn.add_argument("id", metavar="ID", help=one)
    learn.add_argument("--keep", action="store_true", help="write the factors into the shop file")
    export = added(kinds, "export", "log", "write a sitting out")
    export.epilog = (
        "csv: a row a reading, word, phase and call, which `heatbook run PLAN --readings FILE.csv` takes in again. "
        "json: the whole sitting, what `log show --json` prints and events and traces with it. "
        "html: a page with trace, heats, calls, notes and plan, for the screen and for paper."
    )
    export.add_argument("id", metavar="ID", help=one)
    export.add_argument("--to", required=True, choices=("csv", "json", "html"), help="in what form")
    export.add_argument("--out", metavar="FILE", help="where to (standard output)")
    export.add_argument("--title", metavar="TITLE", help="of the page, in place of what the sitting is called")
    rename = added(kinds, "rename", "log_keep", "give a sitting a title of its own")
    rename.add_argument("id", metavar="ID", help=one)
    rename.add_argument("title", nargs="?", metavar="TITLE", help="the title (left out: that of its plan again)")
    mark = added(kinds, "mark", "log_keep", "put a word on a sitting, by which it is found again")
    mark.add_argument("id", metavar="ID", help=one)
    mark.add_argument("word", nargs="?", metavar="WORD", help="the word (left out: its mark is taken away)")
    archive = added(kinds, "archive", "log_keep", "leave sittings out of lists, though not out of the logbook")
    archive.add_argument("--back", action="store_true", help="have them in lists again")
    delete = added(kinds, "delete", "log_keep", "delete sittings: for good once heatbook was opened and left again")
    restore = added(kinds, "restore", "log_keep", "bring back sittings that were deleted")
    for parser in (archive, delete, restore):
        last = "`last`: that was deleted last" if parser is restore else "`last`"
        parser.add_argument("ids", nargs="+", metavar="ID", help=f"a sitting's id, a beginning of it, or {last}")
    pack, unpack = _fill_packing(kinds)
    lesson = added(kinds, "lesson", "log_lesson", "lessons: lines for next time, said before such a step comes again")
    outcome = added(kinds, "outcome", "log_outcome", "what came of a sitting: sound welds, straight, whole, a rating")
    _fill_outcome(outcome)
    measured = added(kinds, "measured", "log_measured", "what was measured by hand, in the sitting and since")
    _fill_measured(measured)
    photo = added(kinds, "photo", "log_photo", "photographs of its work: by name, or copied beside the log")
    _fill_photo(photo)
    compare = added(
        kinds, "compare", "log_compare", "sittings beside one another: figures, and traces from a moment on"
    )
    trends = added(kinds, "trends", "log_trends", "heats, times and sound welds over time; habits and flawed welds")
    _fill_comparing(compare, trends)
    _fill_taught(kinds)
    said, kept = (outcome, measured, photo), (rename, mark, archive, delete, restore, pack, unpack)
    for parser in (listed, show, learn, export, *said, compare, trends, *kept, lesson, *_fill_lesson(lesson)):
        # After the action as well; not said there, it is as it was before it.
        parser.add_argument("--rehearsals", action="store_true", default=argparse.SUPPRESS, help=rehearsals)
    for parser in (listed, show, learn, compare, trends):
        parser.add_argument("--json", action="store_true", help="print one JSON value")


def _fill_taught(kinds: Commands) -> None:
    taught = added(kinds, "taught", "log_taught", "what your sittings teach of your shop, and how much it rests on")
    taught.epilog = "Rehearsals do not count. Below four sittings a row says only how many there are."
    taught.add_argument("--archived", action="store_true", help="count sittings that are archived as well")
    taught.add_argument("--json", action="store_true", help="print one JSON value")
    forget = added(kinds, "forget", "log_taught", "forget what your sittings taught of a row up to now")
    forget.epilog = (
        "A factor that was kept goes from the shop file, and sittings that began until now teach nothing of the row "
        "any more. They stay in the logbook."
    )
    forget.add_argument("row", metavar="ROW", help="a row of `log taught`, by the name that stands first")
    forget.add_argument("--back", action="store_true", help="have all its sittings count again")


def _fill_comparing(compare: argparse.ArgumentParser, trends: argparse.ArgumentParser) -> None:
    compare.epilog = (
        "Steps are the same that have the same title and kind, in their order, and between those steps of the same "
        "kind. A star marks what differs from the first sitting by more than can be told."
    )
    compare.add_argument("ids", nargs="+", metavar="ID", help="two to five: ids, beginnings of them, or `last`")
    compare.add_argument(
        "--from",
        dest="moment",
        choices=("fire", "out", "quench"),
        help="lay the traces of one heat over one another, from when the work went into the fire, came out of it, or "
        "went into the quench",
    )
    compare.add_argument("--step", type=int, metavar="N", help="of which step of the first (the first that has that)")
    compare.add_argument("--heat", type=int, metavar="N", help="of which heat (the first that has that)")
    compare.add_argument(
        "--html",
        metavar="FILE",
        help="write a page: figures, outcomes, lessons, and the traces of every heat, or of those that --from, --step "
        "and --heat name",
    )
    compare.add_argument("--title", metavar="TITLE", help="of that page, in place of the plans' titles")
    trends.epilog = (
        "Finished sittings count, and those of which it was said what came of them. Which habits went with flawed "
        "welds is said from ten sittings on whose welds were looked at, see `log outcome`."
    )
    trends.add_argument("--plan", metavar="NAME", help="sittings of this plan alone, by its name")
    trends.add_argument("--kind", metavar="KIND", help="steps of this kind alone, e.g. weld, draw, harden")


def _fill_packing(kinds: Commands) -> tuple[argparse.ArgumentParser, argparse.ArgumentParser]:
    """Packing the logbook, unpacking it, and taking one file in; returns the first two."""
    pack = added(kinds, "pack", "log_pack", "the logbook, your own plans and the shop file, as one file")
    pack.epilog = (
        "Every sitting that was put away with its photographs; one that runs is left out. What was written is read "
        "back and compared. What is left out is named, and so is a sitting whose file is damaged, which is packed as "
        "it is; the exit status is 1 then."
    )
    pack.add_argument("file", metavar="FILE.zip", help="where to, a new file")
    unpack = added(kinds, "unpack", "log_pack", "take in what a packed logbook holds")
    unpack.epilog = (
        "Beside what is there: a file that is there already and the same is passed over; where another stands, that "
        "stays as it is. Each is checked, and none is run. What is not taken is named, and the exit status is 1 then. "
        "Rehearsals that were packed belong among the rehearsals: --rehearsals here too."
    )
    unpack.add_argument("file", metavar="FILE.zip", help="what `log pack` wrote")
    taken = added(kinds, "import", "log_pack", "take in a sitting or a plan of another heatbook")
    taken.add_argument("file", metavar="FILE", help="a sitting's file or its export (.json), or a plan (.toml)")
    taken.add_argument("--yes", action="store_true", help="take it in without being asked")
    return pack, unpack


def _fill_lesson(lesson: argparse.ArgumentParser) -> list[argparse.ArgumentParser]:
    """The actions on lessons, each with its parser."""
    kinds = lesson.add_subparsers(dest="lesson_action", required=True, metavar="ACTION")
    listed = added(
        kinds, "list", "log_lesson", "every lesson: what it belongs to, and in how many sittings it was said"
    )
    listed.add_argument("--plan", metavar="PLAN", help="those alone that this plan's steps will be told, step by step")
    listed.add_argument("--json", action="store_true", help="print one JSON value")
    add = added(kinds, "add", "log_lesson", "leave a line for next time")
    add.epilog = (
        "`--for step` is said before a step of the same title and kind, in whatever plan; `kind` before every step of "
        "that kind, `steel` before the steps of every plan of that steel, `plan` in this plan and its "
        "copies. --steel with `step` or `kind` narrows those to plans of that steel."
    )
    add.add_argument("id", metavar="ID", help="the sitting that taught it: its id, a beginning of it, or `last`")
    add.add_argument("text", metavar="TEXT", help='the line, e.g. "flux sooner, at dull red"')
    add.add_argument("--step", type=int, required=True, metavar="N", help="the step that it was learned at")
    scopes = ("step", "kind", "steel", "plan")
    add.add_argument("--for", dest="scope", choices=scopes, default="step", help="what it belongs to (step)")
    add.add_argument("--steel", metavar="STEEL", help="one of the plan's steels")
    named = "a lesson's id as `lesson list` shows it, or last.N for that of the newest sitting"
    edit = added(kinds, "edit", "log_lesson", "say a lesson in other words")
    edit.add_argument("lesson", metavar="LESSON", help=named)
    edit.add_argument("text", metavar="TEXT", help="the line as it is to be")
    retire = added(kinds, "retire", "log_lesson", "have a lesson said no longer; it is kept")
    retire.add_argument("lesson", metavar="LESSON", help=named)
    again = added(kinds, "again", "log_lesson", "have a lesson that was retired said again")
    again.add_argument("lesson", metavar="LESSON", help=named)
    put = added(kinds, "put", "log_lesson", "put a lesson into a plan of your own, or into a copy of one that ships")
    put.epilog = (
        "What that changes is shown first and asked about. It goes into every step that the lesson belongs to, or "
        "into what the plan is about where it belongs to a whole plan; where the plan says it, it is not said twice."
    )
    put.add_argument("lesson", metavar="LESSON", help=named)
    put.add_argument("--plan", metavar="PLAN", help="which plan, by name or file (that of the lesson's sitting)")
    put.add_argument("--step", type=int, metavar="N", help="into this step alone")
    put.add_argument(
        "--to",
        choices=("instruction", "checklist", "cautions", "about"),
        help="where it stands (first in the instruction, read before the step begins)",
    )
    put.add_argument("--back", action="store_true", help="take it out of a plan of your own again")
    put.add_argument("--yes", action="store_true", help="write it without being asked")
    return [listed, add, edit, retire, again, put]


def _fill_measured(measured: argparse.ArgumentParser) -> None:
    measured.epilog = (
        "Without figures it prints what was measured. What is added stands beside what was planned, as what was said "
        "at the step does; of two figures of a step the later one counts, and both are kept."
    )
    measured.add_argument("id", metavar="ID", help="a sitting's id, a beginning of it, or `last`")
    figures = 'as it is said at the step: "w 31.5 t 18", "l 220", "m 312 g", "hrc 61"'
    measured.add_argument("figures", nargs="?", metavar="FIGURES", help=figures)
    measured.add_argument("--step", type=int, metavar="N", help="the step it is of (the last that was worked on)")
    measured.add_argument("--take-back", type=int, metavar="NUMBER", help="one that was added counts no longer")
    measured.add_argument("--json", action="store_true", help="print one JSON value")


def _fill_photo(photo: argparse.ArgumentParser) -> None:
    photo.epilog = (
        "Without a file it prints which there are. A photograph is kept by its file's name; a copy of it goes beside "
        "the log, is packed with it, and stands in the exported page. One that is added once more has what you say of "
        "it now."
    )
    photo.add_argument("id", metavar="ID", help="a sitting's id, a beginning of it, or `last`")
    photo.add_argument("file", nargs="?", metavar="FILE", help="a picture: jpg, png, webp, heic or gif, up to 25 MB")
    photo.add_argument("--step", type=int, metavar="N", help="the step that it shows (the sitting as a whole)")
    photo.add_argument("--note", metavar="TEXT", help='a line on what is to be seen: "even scale, no crack"')
    photo.add_argument("--copy", action="store_true", help="copy it beside the log")
    photo.add_argument("--take-back", type=int, metavar="NUMBER", help="one that was added counts no longer")
    photo.add_argument("--json", action="store_true", help="print one JSON value")


def _fill_outcome(outcome: argparse.ArgumentParser) -> None:
    outcome.epilog = (
        "Without options it prints what was said. Each option may be given at any time later, as when a weld opens at "
        "the grinder; `unknown` takes it back."
    )
    outcome.add_argument("id", metavar="ID", help="a sitting's id, a beginning of it, or `last`")
    outcome.add_argument(
        "--weld",
        action="append",
        default=[],
        metavar="N=WHAT",
        help="the weld of step N: sound, or delamination, cold-shut, inclusion, burnt, several with a comma between",
    )
    outcome.add_argument("--warp", metavar="LENGTH", help='how far out of straight it came, e.g. "2 mm"; "0 mm"')
    outcome.add_argument("--twist", metavar="DEGREES", help="how far it is out of plane from end to end")
    outcome.add_argument("--cracks", choices=("yes", "no", "unknown"), help="whether there are any")
    outcome.add_argument("--grain", choices=("fine", "medium", "coarse", "unknown"), help="how a broken piece looks")
    outcome.add_argument("--rating", choices=("1", "2", "3", "4", "5", "unknown"), help="5 is best")
    outcome.add_argument("--json", action="store_true", help="print one JSON value")
