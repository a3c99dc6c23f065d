"""What the bench shows of a run: its words, its view for a screen, and what comes next if all goes right."""
