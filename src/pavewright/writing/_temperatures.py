"""Degrees of either scale."""

from __future__ import annotations


def fahrenheit_to_celsius(temperature_f: float) -> float:
    """Return degrees Celsius for degrees Fahrenheit.

    Args:
        temperature_f: The temperature. [°F]

    >>> fahrenheit_to_celsius(50.0)
    10.0
    """
    return (temperature_f - 32.0) / 1.8


def celsius_to_fahrenheit(temperature_c: float) -> float:
    """Return degrees Fahrenheit for degrees Celsius. [°F].

    >>> celsius_to_fahrenheit(5.0)
    41.0
    """
    return temperature_c * 1.8 + 32.0
