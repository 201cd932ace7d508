"""One file a check, found by being there. A check looks at the wiring and yields faults; it changes nothing."""

from harness.checks.listing import Entry, catalogue
from harness.checks.registry import Check, Fault, all_checks, check, run_checks

__all__ = ["Check", "Entry", "Fault", "all_checks", "catalogue", "check", "run_checks"]
