"""Every line that `class-settings.toml` may hold: its table, its name, what it may be, and what holds where it is left out."""

from dataclasses import dataclass

from kit.words import listed

NAME = "class-settings.toml"


@dataclass(frozen=True)
class Item:
    """One setting: the `table` it stands in, its `name`, `words` for it, and what is `usual` where nobody says otherwise (None: nothing).

    Allowed are the `choices` (value -> words), or numbers from `low` to `high` in `unit`. `example`: what the file shows where nothing is usual.
    """

    table: str
    name: str
    words: str
    usual: object = None
    choices: dict | None = None
    low: float = 0.0
    high: float = 0.0
    unit: str = ""
    example: float | None = None

    def takes(self, value):
        """May this value stand there?"""
        if self.choices is not None:
            return any(value is each or isinstance(each, str) and value == each for each in self.choices)
        return not isinstance(value, bool) and isinstance(value, (int, float)) and self.low <= value <= self.high

    @property
    def allowed(self):
        """What may stand there, in words: '"°C" or "°F"', 'a number from 0.1 to 20 (L)'."""
        if self.choices is not None:
            return listed(map(written, self.choices), "or")
        return f"a number from {self.low:g} to {self.high:g}{f' ({self.unit})' if self.unit else ''}"


def written(value):
    """A value as TOML writes it."""
    if isinstance(value, bool):
        return "true" if value else "false"
    return f'"{value}"' if isinstance(value, str) else f"{value:g}"


TABLES = {
    "show": "How the lessons speak to the class",
    "vessel": "One of the two vessels, inside",
    "lamp": "The lamp",
    "gas": "What makes the CO2 for one run",
    "timing": "The run, from the lamp's start",
    "judging": "What the class allows for",
}

LINES = (
    Item("show", "temperature", "the unit in every sentence, card, chart and report", "°C", {"°C": "degrees Celsius", "°F": "degrees Fahrenheit"}),
    Item("show", "language", "how much text a lesson has", "full", {"full": "all of it", "short": "key sentences only, with the same steps and questions"}),
    Item("show", "ask_names", "ask for the group's name in what is handed in", True, {True: "ask", False: "do not ask"}),
    Item("vessel", "volume_l", "its volume", 1.5, low=0.1, high=20, unit="L"),
    Item("vessel", "depth_cm", "its depth, from the mouth to the floor", 19.0, low=3, high=30, unit="cm"),
    Item("vessel", "mouth_cm", "how wide its mouth is", 7.0, low=1, high=20, unit="cm"),
    Item("lamp", "kind", "what glows in it", "filament", {"filament": "a filament bulb", "halogen": "a halogen bulb", "dark": "a heater that does not glow"}),
    Item("lamp", "power_w", "its power, as printed on it; the sheet on risks counts with it", 75, low=5, high=1000, unit="W"),
    Item("lamp", "taken_up_w", "how much of its power one vessel takes up", 4.0, low=1, high=8, unit="W"),
    Item("gas", "source", "what makes it", "tablets", {"tablets": "tablets", "acid": "bicarbonate and citric acid", "vinegar": "bicarbonate and vinegar"}),
    Item("gas", "tablets", "effervescent tablets", 4, low=1, high=8),
    Item("gas", "bicarbonate_g", "bicarbonate", 5.0, low=0.5, high=50, unit="g"),
    Item("gas", "acid_g", "citric acid", 5.0, low=0.5, high=50, unit="g"),
    Item("gas", "vinegar_ml", "vinegar of 5 %", 100.0, low=10, high=1000, unit="mL"),
    Item("timing", "gas_at_min", "the minute at which the gas goes in", 11.0, low=3, high=60, unit="min"),
    Item("timing", "read_after_min", "how long after the gas the result is read", 10.0, low=3, high=60, unit="min"),
    Item("judging", "tolerance_c_per_min", "the drift of the difference that a range allows for", 0.01, low=0.001, high=0.5, unit="°C a minute"),
    Item("judging", "margin_c", "the largest difference that counts as the same; left out, each learner chooses", low=0.02, high=5, unit="°C", example=0.3),
)
