"""Long work: each in a process of its own, in a queue, with progress that any page can read, and an end that stays."""
