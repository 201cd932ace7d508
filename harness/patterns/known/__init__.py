"""The patterns, one file each, found by being there."""
