"""The assembly record: what a build must have written down before its engine may run."""
