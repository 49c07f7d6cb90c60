"""The shop's calendar, its queue, and when a job is ready."""
