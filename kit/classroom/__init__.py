"""What keeps a class of learners on one computer: a process for each from one that is preloaded, a fence and limits around it."""
