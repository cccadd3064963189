"""What the model expects of the class's pair: a range over what a class does not know, so that every bench of it lies inside."""

from kit.bench import expected_pair, simulate_run
from kit.settings import NAME


def test_the_expected_size_holds_the_bench_and_grows_with_what_is_unknown():
    """The usual simulated bench is one of the benches that the range is made for: read as the class reads, it lies inside."""
    expected = expected_pair()
    truth = simulate_run(noise_c=0, shared_c=0, display_c=0).difference()
    at = {minute: truth.iloc[abs(truth.index - 60 * minute).argmin()] for minute in (11, 16, 21)}
    assert expected.effect.holds(at[21] - at[11]) and expected.soon.holds(at[16] - at[11])
    assert expected.effect.low < expected.effect.high and expected.gone.low < 20 < expected.gone.high
    # science of the mouth: "minute 9 to minute 30" for 6 to 8 cm, still or moving air (the kit's own integration), and a control 5 to 11 °C up
    assert 5 < expected.control.low < expected.control.high < 11


def test_nobodys_bench_falls_outside_whatever_way_the_gas_comes_in():
    expected = expected_pair()
    for switches in ({"filling": "below"}, {"exchange": 2.0, "mouth_cm": 7.0}, {"draught_ml_s": 3.4, "mouth_cm": 7.0}, {"probe_k": 3.0, "mouth_cm": 7.0}):
        run = simulate_run(noise_c=0, shared_c=0, display_c=0, offset_c=0, **switches)
        gap = run.difference()
        assert expected.effect.holds(gap.iloc[abs(gap.index - 1260).argmin()] - gap.iloc[abs(gap.index - 660).argmin()]), switches


def test_it_is_reckoned_for_the_mouth_that_the_settings_say_also_where_that_is_the_usual_one(tmp_path, monkeypatch):
    usual = expected_pair()
    (tmp_path / NAME).write_text("[vessel]\nmouth_cm = 7\n[lamp]\ntaken_up_w = 4\n", encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    assert expected_pair() == usual
    (tmp_path / NAME).write_text("[vessel]\nmouth_cm = 8.5\n[lamp]\ntaken_up_w = 6\n", encoding="utf-8")
    wider = expected_pair()
    assert wider.effect.high > usual.effect.high and wider.control.high > usual.control.high
