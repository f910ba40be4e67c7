"""The local page: a thin face of app."""
