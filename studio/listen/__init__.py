"""What was really said in a recording, and when."""
