"""A session at the car: what is asked, in which order, and what each answer is worth. Knows no terminal."""
