"""A run of a plan: what its events say is done, what may be done now, what a cup that went wrong needs."""
