"""How much of everything one job takes: rubber, cast, shell, cups, and the list of needs."""
