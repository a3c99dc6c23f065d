"""Two plans beside each other."""
