"""How often the kit's ranges hold the truth, on simulated records of many kinds."""
