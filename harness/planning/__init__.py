"""What a person does with a proved job: what to tone, in which order to work, what to test at the end."""
