"""The work, step by step, with its cautions: written from data with a job's quantities, then made the maker's own."""
