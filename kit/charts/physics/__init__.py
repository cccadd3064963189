"""What physics computes: causes and gases, radiation, the planet."""
