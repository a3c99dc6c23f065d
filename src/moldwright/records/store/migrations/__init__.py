"""How the tables came to be, step by step: each step is a file of `versions`, as alembic reads them."""
