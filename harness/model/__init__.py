"""The job as frozen values: what was written, with its places, and nothing computed from it."""
