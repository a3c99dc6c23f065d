"""What the records are in words, and as trees for JSON: one way for the terminal, labels and pages."""
