"""The shelf: lots by their events, what is left of each, how long it lasts, and what each went into."""
