"""Are two numbers the same within a margin that was chosen beforehand? Two one-sided tests, each with its share of what may be amiss."""

from dataclasses import dataclass
from math import inf

from scipy.special import stdtr

from kit.statistics.quantiles import coverage_factor

SAME, DIFFERENT, CANNOT_TELL = "same within the margin", "different", "cannot tell"
RISK = 0.05
# As good as the normal distribution, where the library has none for infinitely many degrees of freedom.
MANY = 1e9


@dataclass(frozen=True)
class Equivalence:
    """`verdict`; `p_same` and `p_different`: the chance of a difference at least as telling if the truth lay just at the margin;
    `reach`: how far to each side of the difference the truth may lie (one-sided 95 %), in its unit, what may be amiss included."""

    verdict: str
    p_same: float
    p_different: float
    reach: float


def equivalence(difference, standard_error, dof, margin, *, bias=0.0):
    """Two one-sided t tests of a `difference` (± `standard_error`, `dof` degrees of freedom) against ± `margin`, all in one unit.

    `bias` bounds what may be amiss in the difference by no chance (a drift, say): both tests stand it at its worst, so that a
    false 'same' at a true difference of the margin stays at most 5 %. Schuirmann, J. Pharmacokinet. Biopharm. 15:657 (1987),
    from memory; the allowance for bias is the plain worst case.
    """
    inside = (margin - bias - abs(difference)) / standard_error
    outside = (abs(difference) - bias - margin) / standard_error
    p_same, p_different = (float(stdtr(min(dof, MANY), -each)) for each in (inside, outside))
    verdict = SAME if p_same <= RISK else DIFFERENT if p_different <= RISK else CANNOT_TELL
    return Equivalence(verdict, p_same, p_different, bias + coverage_factor(1 - 2 * RISK, dof) * standard_error)


def welch_dof(errors, dofs):
    """Degrees of freedom of a sum of independent parts with standard `errors` and `dofs` each.

    Welch, Biometrika 34:28 (1947), and Satterthwaite; GUM G.4.1 (JCGM 100:2008), formula G.2b.
    """
    variances = [error**2 for error in errors]
    shares = sum(variance**2 / dof for variance, dof in zip(variances, dofs))
    return sum(variances) ** 2 / shares if shares else inf
