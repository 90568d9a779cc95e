"""The changes in order."""
