"""Temperature of fresh concrete from that of its ingredients.

The heat balance of ACI 305R and CRD-C 307-91: dry ingredients hold 0.22 of the heat that as much water holds,
and ice takes up its heat of fusion, 143.5 Btu/lb (79.7 K of as much water), before it is mixing water.
"""

from kerfline.model.day import Batch

DRY_HEAT = 0.22
"""Specific heat of cement and aggregate over that of water."""

FUSION = 143.5 / 1.8
"""Heat of fusion of ice over the specific heat of water, K; CRD-C 307-91 gives 143.5 Btu/lb."""


def mixed_temperature(batch: Batch) -> float:
    """Temperature (degrees Celsius) of the concrete as mixed; transport adds its own."""
    return _heat(batch) / _capacity(batch)


def water_for(batch: Batch, wanted: float) -> float:
    """Temperature (degrees Celsius) that the mixing water must have for a temperature of the concrete."""
    missing = wanted * _capacity(batch) - _heat(batch)
    return batch.water_temperature + missing / batch.water


def ice_for(batch: Batch, wanted: float) -> float:
    """How much of the mixing water must come as ice (same unit) for a temperature of the concrete."""
    surplus = _heat(batch) - wanted * _capacity(batch)
    return max(0.0, surplus / (batch.water_temperature + FUSION))


def _capacity(batch: Batch) -> float:
    """Heat that warms the batch by one kelvin, in that of a unit of water."""
    dry = DRY_HEAT * (batch.cement + batch.aggregate)
    return dry + batch.water + batch.ice + batch.moisture


def _heat(batch: Batch) -> float:
    """Heat of the batch over 0 degrees Celsius, ice at its melting point."""
    dry = DRY_HEAT * (
        batch.cement * batch.cement_temperature + batch.aggregate * batch.aggregate_temperature
    )
    wet = batch.water * batch.water_temperature + batch.moisture * batch.aggregate_temperature
    return dry + wet - batch.ice * FUSION
