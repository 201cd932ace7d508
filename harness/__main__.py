"""`python -m harness` does what the command `ringout` does."""

from harness.cli import main

if __name__ == "__main__":
    main()
