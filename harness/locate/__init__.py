"""From what was heard to what is wrong: symptoms in, the test that tells most for its cost out."""
