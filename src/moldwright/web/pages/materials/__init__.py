"""The sheets of materials: looked through, read with their sources, and a shop's own sheet checked."""
