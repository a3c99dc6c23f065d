"""What is done at the bench, as operations: they write, and give what became of it; nobody prints here."""
