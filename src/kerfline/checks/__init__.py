"""Every rule held against a layout, from the layout's own measures."""
