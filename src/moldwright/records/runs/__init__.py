"""Runs of plans: started, opened, written on, planned anew; what is next, and what stands on paper."""
