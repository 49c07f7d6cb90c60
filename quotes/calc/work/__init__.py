"""Labour: operations, their order, ways in, and what they take."""
