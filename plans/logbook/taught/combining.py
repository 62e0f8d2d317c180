"""One figure of several that were measured apart, each with its own error, and that differ by more than these."""

from __future__ import annotations

from collections.abc import Sequence
from math import hypot, sqrt

from plans.record import record


@record
class Combined:
    """A mean, and how far it and a further figure may lie off."""

    mean: float
    """The weighted mean."""
    error: float
    """Its standard error."""
    between: float
    """Standard deviation between the figures, beside their own errors; 0 where those explain all of it."""

    @property
    def of_one_more(self) -> float:
        """Standard deviation of one more such figure about the mean, its own error left out."""
        return hypot(self.error, self.between)


def combined(values: Sequence[float], errors: Sequence[float]) -> Combined:
    """The mean of figures by their inverse variances, with what they differ by among themselves beside their errors.

    The variance between them is that of the moments of Cochran's Q [1]_; where the figures lie closer together than
    their errors let expect, it is 0. That of one more figure is the sum of both variances [2]_.

    Args:
        values: two figures at least
        errors: the standard error of each, above 0

    Raises:
        ValueError: there are fewer than two, or not as many of the others, or an error is not above 0.

    References:
        .. [1] R. DerSimonian and N. Laird, Meta-analysis in clinical trials, Controlled Clinical Trials 7 (1986)
           177-188.
        .. [2] J. P. T. Higgins, S. G. Thompson and D. J. Spiegelhalter, A re-evaluation of random-effects
           meta-analysis, Journal of the Royal Statistical Society A 172 (2009) 137-159.
    """
    if len(values) < 2 or len(errors) != len(values) or min(errors) <= 0:
        raise ValueError("two figures or more, each with a standard error above 0, were expected")
    weights = [error**-2 for error in errors]
    total = sum(weights)
    mean = _mean(values, weights)
    scatter = sum(weight * (value - mean) ** 2 for value, weight in zip(values, weights, strict=True))
    spare = total - sum(weight**2 for weight in weights) / total
    between = max(0.0, (scatter - (len(values) - 1)) / spare)
    weights = [1 / (error**2 + between) for error in errors]
    return Combined(_mean(values, weights), 1 / sqrt(sum(weights)), sqrt(between))


def _mean(values: Sequence[float], weights: Sequence[float]) -> float:
    return sum(weight * value for value, weight in zip(values, weights, strict=True)) / sum(weights)
