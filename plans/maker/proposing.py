"""From what shall be made to a proposal: the one place where the parts of the maker come together."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from plans.maker.building import Built, Sizes, build
from plans.maker.concerns import concerns_of
from plans.maker.doubts import doubts_of
from plans.maker.errors import MakeError
from plans.maker.finished import Forms, forms_of
from plans.maker.making import Making
from plans.maker.proposal import Proposal, ProposedStep
from plans.maker.refusing import refuse
from plans.maker.settled import Settled, settle, steels_in
from plans.maker.shaping import shaping
from plans.maker.stepping import steps_of
from plans.maker.strand import HELD, Cut, Run, run
from plans.maker.treating import treated
from plans.maker.why import Why, arithmetic
from plans.maker.written import as_written
from plans.making import Build, What
from plans.reader import LENGTH, MOST_HEATS, SCALE, SIDE, AnswerKeys, BarKeys
from plans.reckoned import Reckoned
from plans.shapes import Section
from plans.shown import counted
from plans.stock import Loss, LossKind, RackBar
from plans.units import Units, both, section_in_both

_ENOUGH = 0.7
"""Share of the area of the bar to be forged that a billet has to have."""


def propose(
    answers: AnswerKeys,
    units: Units = Units.METRIC,
    rack: Sequence[RackBar] = (),
    reduction: Reckoned | None = None,
    scale: Reckoned | None = None,
) -> Proposal:
    """A plan for what shall be made.

    Args:
        answers: what was answered, of which the figures are taken as a file holds them; the rest is taken as is usual
        units: those in which bars are bought and cut
        rack: the bars that one has; a common size is taken where none will do
        reduction: what a heat takes off in this shop, as its logbook has taught; None for what is usual
        scale: what a heat takes as scale in this shop, as its measurements have taught; None for what is usual. It
            becomes an answer of the plan, so that the same comes of that wherever and whenever it is made again

    Raises:
        MakeError: an answer contradicts another.
    """
    answers = as_written(_by_the_shop(answers, scale), units)
    learned = scale is not None and answers.scale == as_written(_by_the_shop(AnswerKeys(), scale), units).scale
    of = settle(answers, reduction, scale if learned else None)
    forms = forms_of(of, units)
    steels = steels_in(of)
    if of.what is What.CYCLES:
        after = treated(answers, of, forms, steels)
        _check(after.steps, ())
        concerns = (*steels.unknown(), *after.concerns)
        named = " and ".join(of.steels)
        title = answers.title or f"Heat treatment of {named}"
        about = f"For work of {named} that is forged already."
        return Proposal(answers, of, title, about, (), (), after.steps, concerns, None, 0.0, ())
    refuse(answers, of)
    sizes = Sizes(units, rack)
    built = build(of, answers, forms.bar, sizes)
    _check_enough(built.billet, forms.bar)
    shaped = shaping(of, forms, built.billet)
    strand = replace(built.strand, moves=built.strand.moves + shaped)
    done = run(strand, forms.body, sizes.up, of.scale)
    making = Making(of, forms, built, done, steels, units)
    after = treated(answers, of, forms, steels)
    bars = tuple(BarKeys(cut.piece.name, cut.piece.steel, cut.piece.section, cut.length) for cut in done.all_cuts)
    steps = (*steps_of(making), *after.steps)
    _check(steps, bars)
    concerns = (*after.concerns, *built.concerns, *concerns_of(making), *doubts_of(making, answers))
    return Proposal(
        answers=answers,
        settled=of,
        title=answers.title or _title(of),
        about=_about(of, steps),
        bars=bars,
        bar_whys=tuple(_bar_whys(built, cut) for cut in done.all_cuts),
        steps=steps,
        concerns=tuple(sorted(dict.fromkeys(concerns), key=lambda one: not one.serious)),
        finished=forms.finished,
        stock=sum(bar.section.area * bar.length for bar in bars),
        losses=tuple(_losses(done, forms)),
    )


def _by_the_shop(answers: AnswerKeys, scale: Reckoned | None) -> AnswerKeys:
    """The answers with what a heat takes as scale in this shop, where that is not said and something is forged."""
    if scale is None or answers.scale is not None or answers.what is What.CYCLES:
        return answers
    return replace(answers, scale=min(max(scale.value, SCALE.least), SCALE.most))


def _check_enough(billet: Section, bar: Section) -> None:
    """Make sure that a bar can be drawn from a billet at all; one that is a little too small is doubted elsewhere."""
    if billet.area >= _ENOUGH * bar.area:
        return
    said, wanted = section_in_both(billet), section_in_both(bar)
    raise MakeError("bar", f"the billet would be {said}, and is to become {wanted}: start from thicker or more bars")


def _check(steps: Sequence[ProposedStep], bars: Sequence[BarKeys]) -> None:
    """Make sure that the figures are ones that a plan can hold."""
    if not steps:
        raise MakeError("leave_out", "there is nothing left to do: leave out less")
    lengths = [one for step in steps for one in (step.keys.length, step.keys.reach_length) if one is not None]
    lengths += [bar.length for bar in bars]
    sections = [one for step in steps for one in (step.keys.section, step.keys.reach) if one is not None]
    sections += [bar.section for bar in bars]
    if lengths and (min(lengths) < LENGTH.least or max(lengths) > LENGTH.most):
        far = min(lengths) if min(lengths) < LENGTH.least else max(lengths)
        said = both(lambda units: units.length(far))
        raise MakeError("length", f"on the way a part of the work would be {said} long: give it other measures or bars")
    if any(not (SIDE.least <= one.thickness and one.width <= SIDE.most) for one in sections):
        raise MakeError("thickness", "on the way the work would be thinner or wider than any bar: give other measures")
    if any(isinstance(step.keys.heats, int) and step.keys.heats > MOST_HEATS for step in steps):
        raise MakeError(
            "bar", f"a step would take more than {MOST_HEATS} heats: start from a thinner bar, or take off more"
        )


def _bar_whys(built: Built, cut: Cut) -> Mapping[str, Why]:
    why = built.whys.get(cut.piece.name)
    said = "From the finished piece back to the saw: every loss on the way added, and rounded up."
    if HELD <= cut.each < HELD + 2e-3:
        said = "So long that the stack can be held and heated evenly: the piece takes less, and the rest is left over."
    length = arithmetic(said)
    return {"length": length} if why is None else {"section": why, "length": length}


def _losses(done: Run, forms: Forms) -> Iterator[Loss]:
    """What the stock goes to besides the piece: each kind once. What was forged and is not the piece is ground off,
    but for what bars rounded up have more, which is spare."""
    sums: dict[LossKind, float] = {}
    for loss in done.all_losses:
        sums[loss.kind] = sums.get(loss.kind, 0.0) + loss.volume
    more = done.out - forms.body
    sums[LossKind.SPARE] = sums.get(LossKind.SPARE, 0.0) + more
    sums[LossKind.GRINDING] = sums.get(LossKind.GRINDING, 0.0) + done.out + done.apart - more - forms.finished.volume
    yield from (Loss(kind, sums[kind]) for kind in LossKind if sums.get(kind, 0.0) > 1e-15)


_NAMES = {
    What.DOUBLE_EDGED: "Double-edged blade",
    What.SINGLE_EDGED: "Blade",
    What.CHISEL_EDGED: "Chisel-edged blade",
    What.WEDGE: "Wedge",
    What.DRAWKNIFE: "Drawknife",
    What.BAR: "Bar",
    What.CYCLES: "Heat treatment",
}
_HOW = {
    Build.ONE_STEEL: "of one steel",
    Build.LAID_EDGE: "with a laid edge",
    Build.LAMINATE: "of three layers",
    Build.FOLDED: "of a folded billet",
    Build.TWISTED: "of twisted bars",
    Build.CORE: "with a patterned core",
    Build.WRAPPED: "with a wrapped edge",
    Build.BUNDLE: "of a bundle",
}


def _title(of: Settled) -> str:
    return f"{_NAMES[of.what]} {_HOW[of.build]}"


def _about(of: Settled, steps: Sequence[ProposedStep]) -> str:
    units = Units.METRIC
    heats = sum(step.keys.heats for step in steps if isinstance(step.keys.heats, int) and step.keys.fire is not None)
    tang = ""
    if of.is_tanged:
        many = "two tangs" if of.what is What.DRAWKNIFE else "a tang"
        tang = f", with {many} of {{{units.length(of.tang_length)}}}"
    size = (
        f"{{{units.length(of.length)}}} long, {{{units.length(of.width)}}} wide, {{{units.length(of.thickness)}}} thick"
    )
    steels = " and ".join(of.steels)
    return f"{_title(of)}: {size}{tang}, of {steels}. {counted(heats, 'heat').capitalize()} in the fire."
