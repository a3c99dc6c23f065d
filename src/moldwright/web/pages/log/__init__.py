"""A piece's log: every entry of its runs, and what stands on paper typed in."""
