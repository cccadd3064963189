"""Many runs or learners at once: a class and its board, and the concept check."""
