"""Readers and writers: the only layer that knows file formats."""
