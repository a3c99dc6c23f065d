"""The piece to copy: a scan that is scaled, turned and stood on the board, and made one closed solid."""
