"""What engines and parts have run, what falls due, and what became of builds."""
