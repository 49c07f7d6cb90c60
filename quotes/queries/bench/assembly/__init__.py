"""The assembly record of a job."""
