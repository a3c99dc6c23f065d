"""Today: what is in hand, what waits, what is in the shop."""
