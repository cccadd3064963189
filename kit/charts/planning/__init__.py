"""Before a run: the thermometers, the gas, and how many runs it takes."""
