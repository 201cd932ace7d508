"""Test tones for the car: computed samples, written as sound files; knows nothing of jobs."""
