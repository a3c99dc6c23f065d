"""The server's clock, by which all clocks of pages go."""
