"""What carries over and what does not: two columns, nothing in both."""

from kit.analysis.planet.carryover import carries_over


def test_the_balance_carries_over_and_the_walls_do_not():
    table = carries_over()
    assert [each.about for each in table.carrying] == ["energy balance", "a gas that takes up infrared"]
    assert {"walls", "convection", "how much CO2", "time"} <= {each.about for each in table.not_carrying}
    assert len(table.carrying) + len(table.not_carrying) == len(table.parallels)
    assert str(table).startswith("Carries over: energy balance, a gas that takes up infrared. Does not: the way out,")
