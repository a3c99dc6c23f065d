"""What several sources say of one original: each as a distribution of its volume, compared, and put together."""
