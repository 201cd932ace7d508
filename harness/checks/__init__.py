"""One file a check, found by being there. A check looks at the wiring and yields faults; it changes nothing."""

from harness.checks.registry import Check, Entry, Fault, all_checks, catalogue, check, run_checks

__all__ = ["Check", "Entry", "Fault", "all_checks", "catalogue", "check", "run_checks"]
