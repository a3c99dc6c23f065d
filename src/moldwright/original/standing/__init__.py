"""How the piece stands: its size, which way is up, and where the board is."""
