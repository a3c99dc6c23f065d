"""What happened: the events of runs, lots, molds, editions and recipes, their ids and their JSON."""
