"""The scope of a job before the car arrives: what is recorded, what is open, and what both mean for the work."""
