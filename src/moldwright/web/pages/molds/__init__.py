"""Molds: the register, and each mold's story."""
