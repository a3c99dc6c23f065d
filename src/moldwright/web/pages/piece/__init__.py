"""A piece: its plan in figures, cautions and sheets, its runs, and what is asked for."""
