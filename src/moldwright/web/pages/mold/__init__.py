"""The mold, seen: its solids, what each place of them measures, and its figures."""
