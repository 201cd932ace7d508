"""The next car of the same variant: a job's facts and joints kept, its records left behind, what to recheck told."""
