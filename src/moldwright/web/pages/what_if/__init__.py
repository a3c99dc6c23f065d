"""What if: another rubber, temperature, count or metal tried on a piece's plan."""
