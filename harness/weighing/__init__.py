"""Plug-in against solder-in: what must connect, every mix of looms and joints that does it, the best of them."""
