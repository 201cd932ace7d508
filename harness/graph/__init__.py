"""The job as graphs: what conducts to what, as found and as planned; where each signal goes; each fate."""
