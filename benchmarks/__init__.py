"""What the software costs in CPU and memory, next to a peer library or a stated limit in the same run."""
