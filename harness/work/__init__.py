"""The order of work: what each step does, the state of the car after it, and what is at risk in between."""
