"""The append-only evidence file: bytes on disk, one line a record, sealed. Knows nothing of jobs."""
