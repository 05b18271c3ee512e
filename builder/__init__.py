"""Kitwright: reads a build guide as data, builds the kit on paper, then draws, prints and publishes it."""
