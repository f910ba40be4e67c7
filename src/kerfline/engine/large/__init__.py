"""Large floors: blocks that are solved one by one, alike ones once."""
