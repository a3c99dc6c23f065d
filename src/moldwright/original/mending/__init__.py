"""From what stands on the board to one closed solid: cut, closed, mended, told."""
