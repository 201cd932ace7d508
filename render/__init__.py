"""Paper: a proof in, sheets of plain blocks, then PDF, text and SVG."""
