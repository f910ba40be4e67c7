"""The placement day: pours, weather, saw window, cutting order."""
