"""Results of stages kept under keys made of all that they are given, and one walk over frozen dataclasses."""
