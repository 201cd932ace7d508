"""The smallest change of the job that clears a finding, tried before it is offered."""
