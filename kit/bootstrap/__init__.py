"""From a bare Python to the kit's own environment: standard library only."""
