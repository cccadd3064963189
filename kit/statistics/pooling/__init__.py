"""Several results as one: the mean, its spread, the next one, each left out in turn."""

from kit.statistics.pooling.leaving import without_each
from kit.statistics.pooling.pooling import plain_mean, pool, Pooled, spread_interval, spread_of_next, surprise

__all__ = [
    "plain_mean", "pool", "Pooled", "spread_interval", "spread_of_next", "surprise", "without_each",
]  # fmt: skip
