"""Where joints may run: what asks for them, the candidate lines, and how those bend."""
