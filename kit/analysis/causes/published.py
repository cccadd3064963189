"""Published tests of demonstrations like this one, in our words, no stronger than what was read of each."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Publication:
    """Who, where, the DOI, what it says as far as we know, and what of it was read."""

    citation: str
    doi: str
    says: str
    read: str

    def __str__(self):
        return f"{self.citation}, doi:{self.doi}. {self.says} ({self.read})"


PUBLISHED = (
    Publication(
        "Wagoner, Liu & Tobin, Am. J. Phys. 78:536 (2010)",
        "10.1119/1.3322738",
        "Argon, dense and blind to infrared, was compared with CO2. The warming is put down to density, which keeps the gas from mixing with the air.",
        "We read an institute's notice of the paper, not the paper. The notice says this is about classroom set-ups only.",
    ),
    Publication(
        "Bertò, Della-Volpe & Gratton, Eur. J. Phys. 35:025016 (2014)",
        "10.1088/0143-0807/35/2/025016",
        "A critical review of that experiment. We don't know what it found.",
        "Not read; title and DOI from memory.",
    ),
    Publication(
        "Levendis, Kowalski, Lu & Baldassarre, R. Soc. Open Sci. 7:192075 (2020)",
        "10.1098/rsos.192075",
        "Balloons of CO2 cooled about 1.3 K (0.5 to 2.0 K) less in 6.5 minutes than balloons of air. A reviewer asked about convection.",
        "We read only a third party's hostile account, not the paper; its own conclusion is not known to us.",
    ),
)
