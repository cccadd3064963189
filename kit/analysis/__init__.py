"""What a learner asks of a run: each question one function, each answer one frozen result."""
