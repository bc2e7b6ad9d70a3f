"""Exact dimensions of insulated beehives, derived from what a builder measures."""

__version__ = "0.1.0"
