"""A folder of lessons: routines, plan, index, reuse."""
