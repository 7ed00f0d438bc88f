"""The audit: the finished film is opened and what it shows is counted and read, independently of what painted it."""
