"""From outlines to the largest solid that fits in all of them, and what its volume tells of the piece's."""
