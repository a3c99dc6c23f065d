"""What is written into a plan's folder."""
