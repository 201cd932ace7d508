"""Sheets out: `pdf`, `text` and `svg`, one function a block in each; `files` puts bytes on disk."""
