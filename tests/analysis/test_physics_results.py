"""Every answer of the physics prints, shows as a table and goes into JSON; and none of them says more than it may."""

import json
import re

import pytest

from kit.analysis.thermometers.boiling import boiling_point
from kit.analysis.planet.carryover import carries_over
from kit.analysis.causes.possible import possible_causes
from kit.analysis.planet.co2record import co2_record
from kit.analysis.planning.dosing import gas_dose
from kit.analysis.planning.gasneed import gas_needed
from kit.analysis.causes.gastable import compare_gases
from kit.analysis.planet.planet import planet_balance, planet_warming
from kit.analysis.causes.published import PUBLISHED
from kit.analysis.causes.rivals import RIVALS
from kit.analysis.planet.spectra import radiation_curves

RESULTS = {
    "dose": gas_dose(tablets=4), "need": gas_needed(80), "gases": compare_gases(), "spectra": radiation_curves(), "causes": possible_causes(),
    "boiling": boiling_point(altitude_m=500), "balance": planet_balance(), "warming": planet_warming(420), "record": co2_record(),
    "carryover": carries_over(),
}  # fmt: skip
NOT_FOR_LEARNERS = re.compile(r"\b(simply|obvious\w*|prove[sd]?|exact\w*|errors?|wrong|incorrect|traps?|blanket|greenhouse)\b|!", re.I)


@pytest.mark.parametrize("name", RESULTS)
def test_a_result_goes_into_json_and_back(name):
    kept = RESULTS[name].to_dict()
    assert json.loads(json.dumps(kept)) == kept


@pytest.mark.parametrize("name", RESULTS)
def test_a_result_shows_as_a_table_with_a_caption(name):
    html = RESULTS[name]._repr_html_()
    assert html.count("<tr") >= 2 and "<caption" in html


@pytest.mark.parametrize("name", RESULTS)
def test_words_are_plain(name):
    assert not NOT_FOR_LEARNERS.search(re.sub(r"<[^>]+>", " ", RESULTS[name]._repr_html_()) + str(RESULTS[name]))


def test_words_of_causes_and_publications_are_plain():
    causes = possible_causes().causes
    texts = [*map(str, causes), *(rival.story for rival in RIVALS), *(each.says + each.read for each in PUBLISHED)]
    assert not [text for text in texts if NOT_FOR_LEARNERS.search(text)]
