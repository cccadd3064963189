"""Three runs side by side: the numbers of `paired_effect`, and what each bar speaks against holds in the bundled runs."""

from kit import example_run, paired_effect, three_bars, Windows
from kit.widgets.watching.threebars import three_effects


def test_the_bars_are_the_effects_of_the_bundled_runs():
    effects = [paired_effect(example_run(name), Windows.of_perturbation(11)).warming for name in ("basalt", "marble-argon", "basalt-covered")]
    bars = three_bars().shown["bars"]
    assert [(bar["low"], bar["to"], bar["high"]) for bar in bars] == [(each.low, each.value, each.high) for each in effects]
    assert [bar["text"] for bar in bars] == [value for _, value in three_bars().shown["rows"][:3]] == [each.text for each in effects]


def test_what_each_bar_speaks_against_is_in_its_range():
    """Without infrared argon does about as much; under film most of the effect is gone: Wagoner, Liu and Tobin, Am. J. Phys. 78:536
    (2010), abstract as quoted by others, put the warming down to a dense gas that keeps from mixing with the air outside."""
    co2, argon, covered = (effect.warming for effect in three_effects().values())
    assert co2.low > 0 and argon.low > 0.5 * co2.high and covered.high < co2.low


def test_it_is_told_in_words():
    shown = three_bars().shown
    assert shown["picture"].startswith("3 bars on one axis. CO2: 1.") and "simulated" in shown["parts"] and "argon" in shown["picture"]
