"""From cuts to a layout: saw passes, closed ends, panels, names."""
