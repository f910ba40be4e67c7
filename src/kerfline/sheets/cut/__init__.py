"""The sheet that a saw crew cuts from."""
