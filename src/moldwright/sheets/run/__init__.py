"""The sheets of a run, printed again: the plan's own, with all that stands in its log."""
