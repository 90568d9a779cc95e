"""What is wrong with a case file."""


class CaseFault(ValueError):  # noqa: N818 - it is the case that is at fault
    """A case file is not sound; says which case and why."""
