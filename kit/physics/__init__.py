"""Gas, radiation, vessel, air and planet: pure functions, each with its units and its source."""
