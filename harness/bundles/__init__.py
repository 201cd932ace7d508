"""A job with all its files in one, packed for another bay, and taken in there after everything was checked."""
