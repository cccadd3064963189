"""Are two numbers the same within a margin that was chosen beforehand? Two one-sided tests, read off one range."""

from dataclasses import dataclass
from math import inf

from kit.statistics.ranges.quantiles import one_sided_factor

SAME, DIFFERENT, CANNOT_TELL = "same within the margin", "different", "cannot tell"
RISK = 0.05


@dataclass(frozen=True)
class Equivalence:
    """`verdict`, and the range (`low`, `high`) that it rests on: at 90 %, so that each end is passed by the truth in one case of twenty."""

    verdict: str
    low: float
    high: float


def equivalence(difference, standard_error, dof, margin, *, drift=(0.0, 0.0)):
    """Two one-sided t tests of a `difference` (± `standard_error`, `dof` degrees of freedom) against ± `margin`, all in one unit.

    `drift` (least, most): what it may have added to the difference; each end of the range holds it at its worst, so that whatever it was, a
    false 'same' at a true difference of the margin stays at 5 %. Schuirmann, J. Pharmacokinet. Biopharm. 15:657 (1987), from memory; the
    allowance for drift is the plain worst case.
    """
    reach = one_sided_factor(1 - RISK, dof) * standard_error
    low, high = float(difference - drift[1] - reach), float(difference - drift[0] + reach)
    inside, outside = -margin <= low and high <= margin, low > margin or high < -margin
    return Equivalence(SAME if inside else DIFFERENT if outside else CANNOT_TELL, low, high)


def welch_dof(errors, dofs):
    """Degrees of freedom of a sum of independent parts with standard `errors` and `dofs` each.

    Welch, Biometrika 34:28 (1947), and Satterthwaite; GUM G.4.1 (JCGM 100:2008), formula G.2b.
    """
    variances = [error**2 for error in errors]
    shares = sum(variance**2 / dof for variance, dof in zip(variances, dofs))
    return sum(variances) ** 2 / shares if shares else inf
