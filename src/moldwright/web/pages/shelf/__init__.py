"""The shelf: lots of materials, what is left of each, where it went, how long it lasts, what to buy."""
