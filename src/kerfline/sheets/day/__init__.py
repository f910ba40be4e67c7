"""The day sheet: what to order, when to place and cut, and what to mind."""
