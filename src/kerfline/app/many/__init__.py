"""Many slabs at once: which there are, the work on one, the workers, and the summary of all."""
