"""What was set up and said on the page with the simulated bench, as it is kept with the page's answers."""

from kit.widgets.cards import keeping_of
from kit.widgets.simulated.setup import BenchRun

PAGE = "simulated-bench"
RUN = f"{PAGE}.run"


class BenchBook:
    """The runs that were used, and what was said of each bench; `follow` a function that hears of each change."""

    def __init__(self):
        self.keeping = keeping_of(PAGE)

    def follow(self, heard):
        """Call `heard()` whenever something was kept."""
        self.keeping.observe(lambda _change: heard(), "kept")

    @property
    def count(self):
        """How many runs were used, on whichever bench."""
        return len(self.keeping.kept.of(RUN, "run"))

    @property
    def runs(self):
        """All runs of the bench that was used last, in order; () before the first."""
        kept = [each.content for each in self.keeping.kept.of(RUN, "run")]
        made = [BenchRun(each["bench"], number, tuple(each["chosen"])) for number, each in enumerate(kept, 1)]
        return tuple(each for each in made if each.bench == made[-1].bench)

    @property
    def bench(self):
        """Number of the bench that was used last; None before."""
        return self.runs[-1].bench if self.runs else None

    def use(self, made):
        """Keep a `BenchRun`."""
        self.keeping.add(RUN, "run", bench=made.bench, chosen=list(made.chosen))

    @property
    def said(self):
        """The cause that the learner named before opening this bench's truth; '' while it is shut."""
        kept = self.keeping.kept.latest(f"{PAGE}.truth.{self.bench}", "said")
        return kept.content["cause"] if kept else ""

    def say(self, cause):
        """Keep what the learner says made most on this bench: its truth is open from then on."""
        self.keeping.add(f"{PAGE}.truth.{self.bench}", "said", cause=cause)
