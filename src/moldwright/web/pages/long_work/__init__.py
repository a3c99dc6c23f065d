"""Long work: what is under way, what waits, what is over; stopped and tried again."""
